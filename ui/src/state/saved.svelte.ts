/** Where the app put the last file that was asked for; the user is told until it is dismissed. */
export const saved = $state({ path: '' });
