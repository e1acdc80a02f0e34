import { Refused } from '../backend/backend';

/** What went wrong, in words. */
export const why = (error: unknown): string => (error instanceof Error ? error.message : String(error));

/** Why there is no answer about a job. */
export const whyNot = (error: unknown): string =>
  error instanceof Refused ? `The job can’t be used as it is: ${error.message}` : why(error);

/** What a reading would have to be to be used, or what went wrong otherwise. */
export const whyRefused = (error: unknown): string =>
  (error instanceof Refused ? error.errors[0]?.allowed : undefined) ?? why(error);
