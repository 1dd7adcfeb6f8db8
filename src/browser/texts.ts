/** The texts of what runs on the page, each screen's apart: a script loads those it shows. */
import { CLIPS } from '../texts/english/clips.ts';
import { HARP, TONES } from '../texts/english/harp.ts';
import { PLAYER, PLAYER_BUTTON } from '../texts/english/player.ts';
import { PROGRESS } from '../texts/english/progress.ts';
import { textsIn } from '../texts/text.ts';

const LANGUAGE = 'en';

export const playerText = /* @__PURE__ */ textsIn(PLAYER, LANGUAGE);
export const playerButtonText = /* @__PURE__ */ textsIn(PLAYER_BUTTON, LANGUAGE);
export const clipText = /* @__PURE__ */ textsIn(CLIPS, LANGUAGE);
export const harpText = /* @__PURE__ */ textsIn(HARP, LANGUAGE);
export const toneText = /* @__PURE__ */ textsIn(TONES, LANGUAGE);
export const progressText = /* @__PURE__ */ textsIn(PROGRESS, LANGUAGE);
