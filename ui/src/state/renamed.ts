/** Places of the job that a version of its document gave other names. What is half entered beside a job is kept by the names
 * of its time: see docs/decisions/0020. */
const RENAMED: readonly (readonly [was: RegExp, is: string])[] = [
  [/^(\/rig\/guy_levels\/\d+)\/holdfast(?=\/|$)/, '$1/anchor'],
  [/^(\/rig\/guy_levels\/\d+)\/anchors(?=\/|$)/, '$1/anchor_layout'],
];

/** The place as it is called now. */
export function renamed(pointer: string): string {
  return RENAMED.reduce((at, [was, is]) => at.replace(was, is), pointer);
}
