import { why } from './why';

/** One thing after the other that may fail, such as a change to what is kept: what went wrong is told in words. */
export class Attempt {
  problem = $state('');
  busy = $state(false);

  async run(work: () => Promise<unknown>): Promise<void> {
    if (this.busy) return;
    this.busy = true;
    this.problem = '';
    try {
      await work();
    } catch (error) {
      this.problem = why(error);
    } finally {
      this.busy = false;
    }
  }
}
