/** What is to be drawn of one head on the staff, that of a note or of a grace note. */
export interface HeadContent {
  readonly y: number;
  /** Code point of its accidental. */
  readonly accidental?: number | undefined;
  /** Class of its role. */
  readonly role?: string | undefined;
}
