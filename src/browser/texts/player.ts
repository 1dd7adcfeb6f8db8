/** The texts of the player. Each screen has a file of its own, so that a page loads those it shows. */
import { PLAYER } from '../../texts/english/player/player.ts';
import { LANGUAGE } from '../../texts/language.ts';
import { textsIn } from '../../texts/text.ts';

export const playerText = textsIn(PLAYER, LANGUAGE);
