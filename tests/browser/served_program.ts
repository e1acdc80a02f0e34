import { type ChildProcess, spawn } from 'node:child_process';
import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join, resolve } from 'node:path';
import { expect, type Browser, type BrowserContext, type Page } from '@playwright/test';

const PROGRAM = process.env.MASTWRIGHT_CLI ?? resolve(import.meta.dirname, '../../target/debug/mastwright');

/** A browser of its own that is paired. */
export interface PairedBrowser {
  context: BrowserContext;
  page: Page;
}

/** `mastwright serve` in an empty folder of its own. */
export class ServedProgram {
  readonly folder = mkdtempSync(join(tmpdir(), 'mastwright-together-'));
  #program: ChildProcess;
  #terminal = '';

  private constructor() {
    const options = ['serve', '--bind', '127.0.0.1', '--port', '0', '--folder', this.folder];
    this.#program = spawn(PROGRAM, options, { stdio: ['ignore', 'pipe', 'inherit'] });
    this.#program.stdout?.on('data', (more) => (this.#terminal += more));
  }

  static async start(): Promise<ServedProgram> {
    const served = new ServedProgram();
    await expect.poll(() => served.#codes.length).toBe(1);
    return served;
  }

  get origin(): string {
    return /open (https:\/\/\S+)\/pair#/.exec(this.#terminal)?.[1] ?? '';
  }

  stop(): void {
    this.#program.kill();
    rmSync(this.folder, { recursive: true, force: true });
  }

  /** Pairs a new browser by the code on the terminal; the next one stands there then. */
  async pair(browser: Browser, name: string): Promise<PairedBrowser> {
    const context = await browser.newContext({
      ignoreHTTPSErrors: true,
      viewport: { width: 360, height: 740 },
      hasTouch: true,
    });
    const page = await context.newPage();
    const before = this.#codes.length;
    await page.goto(`${this.origin}/pair#${this.#codes.at(-1)}`);
    await page.getByLabel('What the others call').fill(name);
    await page.getByRole('button', { name: 'Pair' }).tap();
    await expect(page.getByTestId('open-demo')).toBeVisible();
    // Whoever looks at the terminal sees the next code once the one before was used.
    const cookie = (await context.cookies()).find((one) => one.name === '__Host-mastwright');
    await context.request.get(`${this.origin}/invitation`, { headers: { cookie: `__Host-mastwright=${cookie?.value}` } });
    await expect.poll(() => this.#codes.length).toBeGreaterThan(before);
    return { context, page };
  }

  get #codes(): string[] {
    return [...this.#terminal.matchAll(/\/pair#([0-9a-f]+)/g)].map(([, code]) => code ?? '');
  }
}
