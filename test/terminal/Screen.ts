/** A place on the screen, counted from the first row ever written. */
interface Mark {
  row: number;
  column: number;
}

interface Row {
  cells: string[];
  /** Whether the next row goes on with this one because the terminal was too narrow. */
  wrapped: boolean;
}

// Control sequences (CSI), operating-system commands (OSC), other escapes of two or three characters.
// biome-ignore lint/suspicious/noControlCharactersInRegex: a terminal speaks in control characters
const sequence = /^\x1b(?:\[([0-?]*)[ -/]*([@-~])|\][^\x07\x1b]*(?:\x07|\x1b\\)|[ -/][0-~]|[0-Z\\^-~])/;

/**
 * What a terminal shows of the output of a program, with everything that has scrolled away: plain text, after
 * carriage returns, backspaces, cursor moves and erasures. It knows what line editors use and leaves out colours.
 */
export class Screen {
  private readonly rows: Row[] = [{ cells: [], wrapped: false }];
  private row = 0;
  private column = 0;
  private pending = '';
  private mark: Mark = { row: 0, column: 0 };
  private pageTop = 0;
  private homed = false;

  constructor(
    private readonly columns: number,
    private readonly height: number,
  ) {}

  write(output: string): void {
    let rest = this.pending + output;
    this.pending = '';
    while (rest !== '') {
      const match = rest.startsWith('\x1b') ? sequence.exec(rest) : undefined;
      if (match) {
        if (match[2]) this.control(match[2], match[1] ?? '');
        rest = rest.slice(match[0].length);
      } else if (rest.startsWith('\x1b') && rest.length < 200) {
        // The sequence is not complete yet.
        this.pending = rest;
        return;
      } else {
        const character = String.fromCodePoint(rest.codePointAt(0)!);
        this.put(character);
        rest = rest.slice(character.length);
      }
    }
  }

  /** All that was written, rows without spaces at the end, rows broken by the width of the terminal joined. */
  text(from: Mark = { row: 0, column: 0 }): string {
    let text = '';
    this.rows.slice(from.row).forEach((row, index) => {
      const line = Array.from(row.cells, (cell) => cell ?? ' ');
      const part = line.slice(index === 0 ? from.column : 0).join('');
      text += row.wrapped ? part : `${part.trimEnd()}\n`;
    });
    return text.replace(/\n+$/, '');
  }

  /** From now on `fresh` begins after what is shown; with `line`, on the row after the one being typed in. */
  setMark(line: boolean): void {
    this.mark =
      line && this.column > 0 ? { row: this.row + 1, column: 0 } : { row: this.row, column: this.column };
  }

  /** What was written after the mark. */
  fresh(): string {
    return this.text(this.mark);
  }

  private current(): Row {
    while (this.rows.length <= this.row) this.rows.push({ cells: [], wrapped: false });
    return this.rows[this.row]!;
  }

  private moveTo(row: number, column: number): void {
    this.row = Math.max(0, row);
    this.column = Math.max(0, Math.min(column, this.columns - 1));
    // What is drawn above the mark is new again.
    if (this.row < this.mark.row - 1) this.mark = { row: this.row, column: 0 };
    this.current();
  }

  private put(character: string): void {
    this.homed = false;
    if (character === '\r') this.moveTo(this.row, 0);
    else if (character === '\n') this.moveTo(this.row + 1, this.column);
    else if (character === '\b') this.moveTo(this.row, this.column - 1);
    else if (character === '\t') this.moveTo(this.row, this.column + 8 - (this.column % 8));
    else if (character >= ' ' && character !== '\x7f') {
      if (this.column >= this.columns) {
        this.current().wrapped = true;
        this.moveTo(this.row + 1, 0);
      }
      this.current().cells[this.column] = character;
      this.column += 1;
    }
  }

  private control(name: string, parameters: string): void {
    const [first, second] = parameters.split(';').map((each) => Number.parseInt(each, 10));
    const n = first || 1;
    const top = Math.max(this.pageTop, this.rows.length - this.height);
    const wasHomed = this.homed;
    this.homed = false;
    if (name === 'A') this.moveTo(this.row - n, this.column);
    else if (name === 'B') this.moveTo(this.row + n, this.column);
    else if (name === 'C') this.moveTo(this.row, this.column + n);
    else if (name === 'D') this.moveTo(this.row, this.column - n);
    else if (name === 'E') this.moveTo(this.row + n, 0);
    else if (name === 'F') this.moveTo(this.row - n, 0);
    else if (name === 'G') this.moveTo(this.row, n - 1);
    else if (name === 'H' || name === 'f') {
      this.moveTo(top + n - 1, (second || 1) - 1);
      this.homed = n === 1 && (second || 1) === 1;
    } else if (name === 'J') this.eraseScreen(first || 0, wasHomed);
    else if (name === 'K') this.eraseRow(first || 0);
  }

  private eraseRow(which: number): void {
    const row = this.current();
    if (which === 0) {
      row.cells.length = Math.min(row.cells.length, this.column);
      row.wrapped = false;
    } else if (which === 1) row.cells.fill(' ', 0, this.column + 1);
    else row.cells.length = 0;
  }

  private eraseScreen(which: number, wasHomed: boolean): void {
    if (which >= 2 || (which === 0 && wasHomed)) {
      // A cleared screen stays in the record; the new page begins below it.
      this.pageTop = this.rows.length;
      this.moveTo(this.pageTop, 0);
    } else if (which === 0) {
      this.eraseRow(0);
      this.rows.length = this.row + 1;
    }
  }
}
