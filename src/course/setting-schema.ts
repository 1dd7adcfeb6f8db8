/** The settings of course.yaml and of front matter: the same keys and values as at the head of a block. */
import type { z } from 'zod';
import { refuse, text } from '../document/schema.ts';
import { readSetting, SETTING_KEYS, type SettingKey, type Tables } from '../notation/setting-values.ts';
import type { Settings } from '../notation/settings.ts';
import { recordOf } from '../values/checked.ts';

/** The settings, in the words a block's header takes. */
export const settingShape = (tables: Tables) => recordOf(SETTING_KEYS, (key) => setting(key, tables).optional());

const setting = (key: SettingKey, tables: Tables) =>
  text.transform((written, context): Partial<Settings> => {
    const read = readSetting(key, written, tables);
    return 'value' in read ? read.value : refuse(context, read.message, { help: read.help, whole: true });
  });

/** The values of block settings in a YAML file, by key. */
export type SettingsRead = { readonly [Key in SettingKey]?: Partial<Settings> | undefined };

/** The settings that were read, as one value. */
export const mergeSettings = (read: SettingsRead): Partial<Settings> =>
  Object.assign({}, ...SETTING_KEYS.map((key) => read[key]));

/** Reports a form and a list of chords that are set together. */
export const oneProgression = (read: SettingsRead, context: z.RefinementCtx): void => {
  if (read.form === undefined || read.chords === undefined) return;
  context.addIssue({
    code: 'custom',
    path: ['chords'],
    message: 'Chords are listed here, and a form is named as well.',
    params: { help: 'Keep either form or chords.', whole: true },
  });
};
