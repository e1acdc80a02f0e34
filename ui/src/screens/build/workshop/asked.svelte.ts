import { why } from '../../../state/why';
import { app } from '../../../state/app.svelte';
import type { Job } from '../../../backend/model';

/** An answer that follows the job in hand, the latest question's alone; asked while its page is open. */
export class Asked<A> {
  answer = $state.raw<A | null>(null);
  problem = $state('');

  constructor(private readonly ask: (job: Job) => Promise<A>) {}

  /** Call it in an effect; what it hands back drops an answer that comes too late. */
  follow(): () => void {
    const { job } = app;
    let current = true;
    if (job) {
      this.ask(job).then(
        (found) => current && ((this.answer = found), (this.problem = '')),
        (error: unknown) => current && (this.problem = why(error)),
      );
    }
    return () => (current = false);
  }
}
