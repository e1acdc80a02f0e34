import { backend } from '../backend';
import type { WorkPage, WorkshopAnswer } from '../backend/model';
import { FollowedJob } from './followed-job.svelte';
import { worksFrom } from './workshop';

/** The subjects that have a page of the same make. */
export type WorkSubject = 'fit' | 'stages' | 'lift' | 'base' | 'collars';

/** What is made in the workshop, as the job stands. */
class WorkshopState extends FollowedJob<WorkshopAnswer> {
  constructor() {
    super((job) => backend.call('workshop', { job }), worksFrom);
  }

  page(of: WorkSubject): WorkPage | undefined {
    return this.answer?.report[of];
  }
}

export const workshopState = new WorkshopState();
