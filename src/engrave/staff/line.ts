/** The width of stems, ledger lines and brackets; `block.css` gives it to lines of their class. */
export const LINE = 1.5;
