/** Rows of a sample meter export, read with nothing of the program's own reader. */
export interface MeterRow {
  /** From the stamp: seconds on some clock that runs evenly through the file. */
  readonly stampS: number;
  readonly powerW: number;
  /** Absent where the export has no counter. */
  readonly counterWh: number | undefined;
}

/** Reads one of the three dialects of the samples; anything else throws. */
export function readExport(text: string): MeterRow[] {
  if (text.startsWith('elapsed_s\tpower_kW\tvoltage_V\n')) {
    return rows(text, '\n', 1, '\t').map(([time, power]) => ({
      stampS: number(time),
      powerW: 1000 * number(power),
      counterWh: undefined,
    }));
  }
  if (text.startsWith('time,power_W,voltage_V,energy_kWh\n')) {
    return rows(text, '\n', 1, ',').map(([time = '', power, , energy]) => ({
      stampS: number(String(Date.parse(time))) / 1000,
      powerW: number(power),
      counterWh: 1000 * number(energy),
    }));
  }
  if (!text.startsWith('\uFEFFGerät;meter-1\r\nAufzeichnung;'))
    throw new Error(`strange head: ${text.slice(0, 80)}`);
  return rows(text, '\r\n', 3, ';').map(([time = '', power = '', , energy = '']) => {
    const [day, month, year, clock] = time.split(/[. ]/);
    return {
      stampS: number(String(Date.parse(`${year}-${month}-${day}T${clock}+02:00`))) / 1000,
      powerW: number(power.replace(',', '.')),
      counterWh: number(energy.replace(',', '.')),
    };
  });
}

function rows(text: string, lineEnd: string, head: number, separator: string): string[][] {
  const lines = text.split(lineEnd);
  if (lines.pop() !== '') throw new Error('the last line has no end');
  return lines.slice(head).map((line) => line.split(separator));
}

function number(text: string | undefined): number {
  const value = Number(text);
  if (text === undefined || text === '' || !Number.isFinite(value)) throw new Error(`not a number: ${text}`);
  return value;
}
