import { expect, it } from 'vitest';
import { broughtSays, type Brought } from './brought';

const nothing: Brought = {
  at: new Date(2026, 10, 27, 10, 42),
  came: [],
  taken: [],
  went: [],
  back: [],
  photos: 0,
  sent: false,
  asked: 0,
};
const from = (device_name: string, readings: number, others: number) => ({
  device: device_name.toLowerCase(),
  device_name,
  readings,
  others,
});
const TIME = nothing.at.toLocaleTimeString(undefined, { hour: '2-digit', minute: '2-digit' });

it.each<[string, Partial<Brought>, string]>([
  ['readings', { came: [from('Laptop', 2, 0)] }, ` with Laptop, ${TIME}: 2 readings from there.`],
  [
    'one of each',
    { came: [from('Laptop', 1, 1)] },
    ` with Laptop, ${TIME}: 1 reading and 1 other entry from there.`,
  ],
  [
    'several devices and a photo',
    { came: [from('Phone', 1, 3), from('', 1, 0), from('Laptop', 0, 1)], photos: 1 },
    ` with Laptop, Phone and another device, ${TIME}: 2 readings, 4 other entries and 1 photo from there.`,
  ],
  ['only sent', { sent: true }, `, ${TIME}: what was entered here is there now.`],
  ['nothing', {}, `, ${TIME}: nothing was new.`],
  [
    'a job',
    { taken: ['Orchard', ''] },
    `, ${TIME}. “Orchard” is here now, too. “Job without a name” is here now, too.`,
  ],
  [
    'what was deleted, and what is wanted back',
    { sent: true, went: [{ name: 'Orchard', device_name: 'Laptop' }], back: ['Yard'] },
    `, ${TIME}. “Orchard” was deleted on Laptop: it lies in the bin here. “Yard” is wanted back: it is out of the bin.`,
  ],
  [
    'something to be asked',
    { came: [from('Laptop', 1, 0)], asked: 2 },
    ` with Laptop, ${TIME}: 1 reading from there. 2 entries written on both: say which holds.`,
  ],
])('%s', (_, what, says) => expect(broughtSays({ ...nothing, ...what })).toBe(`Brought together${says}`));
