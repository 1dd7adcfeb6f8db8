/** The list of files that a student can take along of a block, and what becomes of a choice. */
import { type FormatName, fileNameOf, type Players } from '../../interchange/formats.ts';
import { type Chosen, chosenName, readChosen } from '../harp/chosen.ts';
import { offerFile } from '../offer-file.ts';
import { make } from '../player/dom.ts';
import { saveText } from '../texts/save.ts';
import { fileOf, type SavedBlock } from './files.ts';

/** A row of the list. */
interface Choice {
  readonly format: FormatName;
  readonly players: Players;
  readonly title: string;
  readonly purpose: string;
}

const choiceOf = (format: FormatName, players: Players, title: string, purpose: string): Choice => ({
  format,
  players,
  title,
  purpose,
});

const CHOICES: readonly Choice[] = [
  choiceOf('musicxml', 'tune', saveText('musicxml'), saveText('musicxmlFor')),
  choiceOf('midi', 'tune', saveText('midi'), saveText('midiFor')),
  choiceOf('midi', 'both', saveText('midiBand'), saveText('midiBandFor')),
  choiceOf('abc', 'tune', saveText('abc'), saveText('abcFor')),
  choiceOf('text', 'tune', saveText('text'), saveText('textFor')),
  choiceOf('svg', 'tune', saveText('svg'), saveText('svgFor')),
  choiceOf('png', 'tune', saveText('png'), saveText('pngFor')),
  choiceOf('wav', 'tune', saveText('wav'), saveText('wavFor')),
  choiceOf('wav', 'both', saveText('wavBoth'), saveText('wavBothFor')),
  choiceOf('wav', 'band', saveText('wavBand'), saveText('wavBandFor')),
];

/** Fills the opened menu of a block. */
export function fillMenu(menu: HTMLElement): void {
  const around = menu.closest<HTMLElement>('[data-block]');
  if (!around) throw new Error('a menu of files is outside of any block');
  const figure: HTMLElement = around;
  const news = make('p', { role: 'status' });
  const rows = CHOICES.map((choice) => {
    const button = make('button', { type: 'button' }, choice.title);
    button.addEventListener('click', () => void save(choice));
    return make('li', {}, button, make('span', {}, choice.purpose));
  });
  menu.append(make('p', {}, saveText('forWhat')), make('ul', {}, ...rows), news);

  let latest = 0;
  async function save({ format, players }: Choice): Promise<void> {
    const mine = ++latest;
    news.textContent = saveText('making');
    let said: string;
    try {
      const chosen = readChosen();
      const { lesson = '', block: own = '' } = figure.dataset;
      const block: SavedBlock = { figure, lesson, block: own };
      const content = await fileOf(block, format, players);
      const file = nameOf(fileNameOf(block.lesson, block.block, format, players), chosen);
      offerFile(file, content);
      said = saveText('made', { file });
    } catch {
      said = saveText('notMade');
    }
    // Of several files asked for at once, the last one is reported.
    if (mine === latest) news.textContent = said;
  }
}

/** A download has no folders, and names the harp where the student chose one. */
function nameOf(path: string, { harp, tuned }: Chosen): string {
  const name = path.replaceAll('/', '-');
  const words = [...(harp ? [`${chosenName(harp).replace(' ', '-')}-harp`] : []), ...(tuned ? [tuned.tuning.id] : [])];
  const dot = name.lastIndexOf('.');
  return [name.slice(0, dot), ...words].join('-') + name.slice(dot);
}
