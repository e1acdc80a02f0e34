/** Reads a text out, by the browser's own voice. */
class Aloud {
  readonly possible = typeof window !== 'undefined' && 'speechSynthesis' in window;
  /** What is being read. */
  reading = $state('');

  /** Reads it, or stops where it is being read. */
  toggle(text: string): void {
    if (!this.possible) return;
    const stop = this.reading === text;
    this.silence();
    if (stop) return;
    const says = new SpeechSynthesisUtterance(text);
    says.lang = 'en';
    says.rate = 0.95;
    says.onend = says.onerror = () => {
      if (this.reading === text) this.reading = '';
    };
    this.reading = text;
    window.speechSynthesis.speak(says);
  }

  /** Says it in place of what is being said. */
  say(text: string): void {
    this.silence();
    this.toggle(text);
  }

  silence(): void {
    this.reading = '';
    if (this.possible) window.speechSynthesis.cancel();
  }
}

export const aloud = new Aloud();
