/** The pages every visitor may want at any time, in the order they stand at the head of each page. */
export interface Place {
  /** Below the site's base. */
  readonly path: string;
  readonly title: string;
}

export const PLACES: readonly Place[] = [
  { path: 'path/', title: 'The path' },
  { path: 'techniques/', title: 'Techniques' },
  { path: 'harps/', title: 'Harps' },
  { path: 'guide/', title: 'How to read a block' },
];
