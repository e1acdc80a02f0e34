import type { Page } from '@playwright/test';

/** A voice that says nothing aloud, and notes in the page's `noted.said` what it was asked to say; other fakes add to `noted` after it. */
export async function fakeVoice(page: Page): Promise<void> {
  await page.addInitScript(() => {
    const said: string[] = [];
    Object.assign(window, { noted: { said } });
    class Utterance {
      lang = '';
      rate = 1;
      onend: (() => void) | null = null;
      onerror: (() => void) | null = null;
      constructor(public text: string) {}
    }
    Object.defineProperty(window, 'SpeechSynthesisUtterance', { value: Utterance });
    const voice = { speak: (it: Utterance) => said.push(it.text), cancel: () => undefined };
    Object.defineProperty(window, 'speechSynthesis', { value: voice });
  });
}
