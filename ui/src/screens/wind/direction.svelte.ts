import type { Units } from '../../backend/model';
import { app } from '../../state/app.svelte';
import type { Doc, Typed } from '../../state/doc';
import { jobAt, withValue, type Pointer } from '../../state/pointer';
import { wind } from '../../state/wind.svelte';

/** The bearing of the job that has the unit and the range of the wind's. */
export const LIKE = jobAt('/placement/front_bearing_deg');

/** The direction that the wind comes from as a field edits it: it belongs to the screen, not to the job. */
export class Direction implements Doc {
  #typed = $state.raw<Typed | undefined>(undefined);
  #accepted = $state.raw<{ value: number; text: string } | null>(null);

  /** `words`: the engine's text of the direction that is looked at. */
  constructor(private readonly words: () => string) {}

  get units(): Units {
    return app.units;
  }
  get<V>(): V | undefined {
    return (wind.fromDeg ?? undefined) as V | undefined;
  }
  set = (_: string, value: unknown) => (wind.fromDeg = typeof value === 'number' ? value % 360 : null);
  shown = () =>
    this.#accepted && this.#accepted.value === wind.fromDeg ? this.#accepted.text : this.words();
  typed = () => this.#typed;
  keepTyped = (_: string, typed: Typed | null) => (this.#typed = typed ?? undefined);
  accept(pointer: string, value: number, text: string): void {
    this.#typed = undefined;
    this.set(pointer, value);
    this.#accepted = { value: value % 360, text };
  }
  trial = <V>(pointer: Pointer<V>, value: NoInfer<V>) => withValue(app.job, pointer, value);
  noteText = () => undefined;
  removeFrom = () => undefined;
  readonly mayMiss = false;
  field = (pointer: string) => pointer;
}
