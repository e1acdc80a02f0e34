import type { PlumbLiveAnswer } from '../backend/model';
import { aloud } from './aloud.svelte';

/** Oftener a voice is a nuisance. */
const SAY_MS = 6000;

/** What who plumbs hears and feels of it, hands and eyes at the guy. */
export class PlumbSignals {
  tone = $state(false);
  voice = $state(false);
  /** Whether this browser can make a tone. */
  readonly toneIsThere = typeof AudioContext !== 'undefined';
  readonly voiceIsThere = aloud.possible;
  #context: AudioContext | null = null;
  #oscillator: OscillatorNode | null = null;
  #loud: GainNode | null = null;
  #said = '';
  #saidAt = -Infinity;
  #plumb = false;

  /** Must be called from a tap: phones give sound only then. */
  toggleTone(): void {
    this.tone = !this.tone;
    if (!this.tone) return this.#silent();
    const context = new AudioContext();
    [this.#context, this.#oscillator, this.#loud] = [
      context,
      context.createOscillator(),
      context.createGain(),
    ];
    this.#loud.gain.value = 0;
    this.#oscillator.connect(this.#loud).connect(context.destination);
    this.#oscillator.start();
  }

  toggleVoice(): void {
    this.voice = !this.voice;
    this.#said = '';
    if (!this.voice) aloud.silence();
  }

  follow(answer: PlumbLiveAnswer | null): void {
    const hz = answer?.tone_hz ?? null;
    const now = this.#context?.currentTime ?? 0;
    this.#loud?.gain.setTargetAtTime(hz === null ? 0 : 0.15, now, 0.02);
    if (hz !== null) this.#oscillator?.frequency.setTargetAtTime(hz, now, 0.02);
    this.#feel(answer);
    this.#say(answer?.words?.aloud ?? '');
  }

  stop(): void {
    this.#silent();
    [this.tone, this.voice, this.#plumb] = [false, false, false];
    aloud.silence();
  }

  /** Three short ones when no lean is to be seen any more. */
  #feel(answer: PlumbLiveAnswer | null): void {
    // As near as the phone can tell: surer it never is.
    const plumb = answer?.words != null && answer.words.verdict.severity !== 'caution';
    if (plumb && !this.#plumb) navigator.vibrate?.([60, 60, 60, 60, 60]);
    this.#plumb = plumb;
  }

  #say(text: string): void {
    const now = performance.now();
    if (!this.voice || text === '' || text === this.#said || now - this.#saidAt < SAY_MS) return;
    [this.#said, this.#saidAt] = [text, now];
    aloud.say(text);
  }

  #silent(): void {
    this.#oscillator?.stop();
    void this.#context?.close();
    [this.#context, this.#oscillator, this.#loud] = [null, null, null];
  }
}
