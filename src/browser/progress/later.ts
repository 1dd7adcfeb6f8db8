/** What lesson pages load of progress when there is something to offer, to keep or to ask for. */
export { offerToGoOn } from './go-on.ts';
export { askToKeep } from './lasting.ts';
export { watchPlaying } from './watch-playing.ts';
