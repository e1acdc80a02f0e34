import { backend } from '../backend';
import type { Job, LookWish, PictureAnswer, StandAnswer, ViewReport } from '../backend/model';
import { Newest, onFrame } from './newest';
import { whyNot } from './why';

/** How wide a picture may be, from side to side: as the engine has it. */
const LEAST_FIELD_DEG = 15;
const MOST_FIELD_DEG = 100;
const LEAST_PITCH_DEG = -60;
const MOST_PITCH_DEG = 75;
const USUAL_FIELD_DEG = 60;
/** One push of a turn button or an arrow key. */
export const TURN_DEG = 10;
/** Letters in the picture. */
const TEXT_PX = 13;

interface Size {
  width: number;
  height: number;
}

interface Asked {
  /** Set where one has to stand there first. */
  stand: { job: Job; standpoint: string } | null;
  held: string;
  look: LookWish;
}

/** What is seen from a standpoint: where one stands is asked once, each turn of the head by itself. */
export class SeenState {
  report = $state.raw<ViewReport | null>(null);
  picture = $state.raw<PictureAnswer | null>(null);
  problem = $state('');
  night = $state(false);
  #mastDeg = 0;
  /** What is turned to by hand; nothing: where the standpoint looks by itself. */
  #toward: number | null = null;
  #pitch: number | null = null;
  #field = USUAL_FIELD_DEG;
  #size: Size | null = null;
  #job: Job | null = null;
  #standpoint = '';
  #held = '';
  #count = 0;
  #asked = new Newest<Asked, StandAnswer | PictureAnswer>(
    async ({ stand, held, look }) =>
      stand ? backend.call('stand', { ...stand, name: held, look }) : backend.call('look', { held, look }),
    (answer, { held }) => {
      if (held !== this.#held) return;
      this.problem = '';
      if ('report' in answer) {
        this.report = answer.report;
        this.#mastDeg = answer.mast_bearing_deg;
        this.#standsAs = held;
      }
      this.picture = 'report' in answer ? answer.picture : answer;
    },
    (error, { held }) => {
      if (held === this.#held) this.problem = whyNot(error);
    },
    onFrame,
  );

  /** Somebody looks from there. Call it as often as the job or the size of the picture changes. */
  look(job: Job, standpoint: string, size: Size): void {
    if (size.width < 1 || size.height < 1) return;
    const elsewhere = standpoint !== this.#standpoint;
    if (elsewhere) {
      [this.#toward, this.#pitch, this.#field] = [null, null, USUAL_FIELD_DEG];
      [this.report, this.picture] = [null, null];
    }
    const anew = elsewhere || job !== this.#job;
    [this.#job, this.#standpoint, this.#size] = [job, standpoint, size];
    if (anew) this.#stand();
    else this.#ask();
  }

  get toward(): number {
    return this.picture?.look.toward_deg ?? 0;
  }

  /** Turns by so many degrees to the right and up. */
  turn(right: number, up = 0): void {
    const look = this.picture?.look;
    if (!look) return;
    const toward = (this.#toward ?? look.toward_deg) + right;
    this.#toward = ((toward % 360) + 360) % 360;
    const pitch = (this.#pitch ?? look.pitch_deg) + up;
    this.#pitch = Math.min(MOST_PITCH_DEG, Math.max(LEAST_PITCH_DEG, pitch));
    this.#ask();
  }

  /** As a finger pulls the picture along. */
  pull(dx: number, dy: number): void {
    if (!this.#size) return;
    const perPx = this.#field / this.#size.width;
    this.turn(-dx * perPx, dy * perPx);
  }

  zoom(factor: number): void {
    this.#field = Math.min(MOST_FIELD_DEG, Math.max(LEAST_FIELD_DEG, this.#field / factor));
    this.#ask();
  }

  toMast(): void {
    [this.#toward, this.#pitch] = [this.#mastDeg, null];
    this.#ask();
  }

  toBearing(bearing: number): void {
    [this.#toward, this.#pitch] = [bearing, null];
    this.#ask();
  }

  setNight(night: boolean): void {
    this.night = night;
    this.#ask();
  }

  #wish(size: Size): LookWish {
    return {
      toward_deg: this.#toward,
      pitch_deg: this.#pitch,
      field_deg: this.#field,
      aspect: Math.min(5, Math.max(0.2, size.width / size.height)),
      night: this.night,
      text: Math.min(12, Math.max(0.5, (100 * TEXT_PX) / size.width)),
    };
  }

  #stand(): void {
    this.#count += 1;
    this.#held = `seen-${this.#standpoint}-${this.#count}`;
    this.#ask();
  }

  #ask(): void {
    if (!this.#size || !this.#job) return;
    const isThere = this.#standsAs === this.#held;
    const stand = isThere
      ? null
      : { job: { ...this.#job, log: [], photos: [] }, standpoint: this.#standpoint };
    this.#asked.want({ stand, held: this.#held, look: this.#wish(this.#size) });
  }

  /** What the engine keeps: once it answered, a turn is a question of its own. */
  #standsAs = '';
}
