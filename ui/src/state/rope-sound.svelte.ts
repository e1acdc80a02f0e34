import type { Stage } from './sensors';

/** So long a rope is listened to: a plucked wire has died away by then. */
const LISTEN_S = 3;
const BLOCK = 4096;

/** Three seconds of the microphone, as it hears them. */
export class RopeSound {
  stage = $state<Stage>('off');
  /** From 0 to 1. */
  done = $state(0);
  #stop: (() => void) | null = null;

  constructor(private readonly whole: (samples: number[], rate_hz: number) => void) {}

  /** Must be called from a tap. */
  async start(): Promise<void> {
    if (!isSecureContext) return void (this.stage = 'insecure');
    if (!navigator.mediaDevices?.getUserMedia) return void (this.stage = 'none');
    this.stage = 'asking';
    this.done = 0;
    try {
      // What makes a voice clearer takes a rope's note away.
      const plain = { echoCancellation: false, noiseSuppression: false, autoGainControl: false };
      this.#hear(await navigator.mediaDevices.getUserMedia({ audio: plain }));
    } catch (error) {
      const missing = error instanceof DOMException && error.name === 'NotFoundError';
      this.stage = missing ? 'none' : 'refused';
    }
  }

  stop(): void {
    this.#end('off');
  }

  #hear(stream: MediaStream): void {
    const context = new AudioContext();
    const source = context.createMediaStreamSource(stream);
    // The newer worklet wants a script of its own, which the page's rules on scripts would have to allow.
    const tap = context.createScriptProcessor(BLOCK, 1, 1);
    const heard: number[] = [];
    const most = LISTEN_S * context.sampleRate;
    this.#stop = () => {
      tap.disconnect();
      source.disconnect();
      stream.getTracks().forEach((track) => track.stop());
      void context.close();
    };
    tap.onaudioprocess = (event) => {
      // To a hundred-thousandth: sixteen bits hold no more, and it is sent as text.
      for (const value of event.inputBuffer.getChannelData(0)) heard.push(Math.round(value * 1e5) / 1e5);
      this.done = Math.min(1, heard.length / most);
      if (this.done < 1 || this.stage !== 'on') return;
      this.#end('off');
      this.whole(heard, context.sampleRate);
    };
    source.connect(tap);
    tap.connect(context.destination);
    this.stage = 'on';
  }

  #end(stage: Stage): void {
    this.#stop?.();
    this.#stop = null;
    this.stage = stage;
  }
}
