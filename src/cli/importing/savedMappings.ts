import { type Mapping, listMappings, readMapping } from '../../workbook/index.js';
import { type CommonArgs, type Outcome, theWorkbook } from '../Outcome.js';

/** The saved mappings with their columns, for `--like list`. */
export function savedMappings(args: CommonArgs): Outcome {
  const { dir } = theWorkbook(args);
  const mappings = listMappings(dir).map((name) => readMapping(dir, name));
  return {
    data: { mappings },
    lines:
      mappings.length > 0
        ? mappings.map((mapping) => `${mapping.id.padEnd(14)} ${columnWords(mapping)}`)
        : ['No mapping is saved yet. Save one with: heatledger import FILE --look --remember NAME'],
  };
}

function columnWords({ columns, stated, found }: Mapping): string {
  const named = Object.entries(columns).flatMap(([role, column]) => {
    if (column === undefined) return [];
    const { header, number } = column;
    const unit = stated.units?.[role as 'power'] ?? found.units?.[role as 'power'];
    const where = number === undefined ? `"${header}"` : `column ${number}`;
    return [`${role} from ${where}${unit === undefined ? '' : ` in ${unit}`}`];
  });
  const counted = stated.interval === undefined ? [] : [`rows ${stated.interval} s apart`];
  return [...named, ...counted].join(', ');
}
