/** The device that ids are made on: two devices in one yard never make the same. The shelf says which it is. */
let device = '';
/** Whether the job in hand was made on another device. */
let fromElsewhere = false;

export const idDevice = (): string => device;

export function idsAreMadeOn(name: string): void {
  device = name;
}

/** Letters of marks stay plain on the device that made the job, and only there. */
export function lettersAreFor(job: string): void {
  fromElsewhere = device !== '' && !job.startsWith(`${device}-`);
}

/** A short id that no item of the list has yet: `slope-k7x2mab-3`, with the device and its count. */
export function freeId(list: readonly { id: string }[], stem: string): string {
  const taken = new Set(list.map((item) => item.id));
  const made = device === '' ? stem : `${stem}-${device}`;
  for (let n = list.length + 1; ; n++) {
    const id = `${made}-${n}`;
    if (!taken.has(id)) return id;
  }
}

/** The next free letter for a mark: A, B, … Z, then M27, M28, …; where the job came from another device, which may go on
 * with its own letters meanwhile, with two letters of this device: `C-k7`. */
export function freeLetter(list: readonly { id: string }[]): string {
  const taken = new Set(list.map((item) => item.id));
  for (let n = 0; ; n++) {
    const letter = n < 26 ? String.fromCharCode(65 + n) : `M${n + 1}`;
    const id = fromElsewhere ? `${letter}-${device.slice(0, 2)}` : letter;
    if (!taken.has(id) && !taken.has(letter)) return id;
  }
}
