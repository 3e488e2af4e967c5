import { type Html, html, showable, trusted } from './html.js';

/** What a reader who cannot see the chart is told. */
export interface ChartWords {
  /** Unique on the page; letters, digits and dashes of our own, never text of a user. */
  readonly id: string;
  readonly title: string;
  readonly description: string;
}

const idle =
  / (?:role|class|aria-[a-z]+|pointer-events|font-family|xmlns(?::xlink)?|opacity="1"|version)(?:="[^"]*")?/g;

/**
 * Vega's SVG made fit for a page: a role, a title and a description; ids of its own, so that many charts share a page;
 * without what vega adds for scripts; coordinates of curves to a tenth of a pixel.
 *
 * Text of users stands only between tags, where vega has escaped it; so a pattern for tags cannot meet it.
 */
export function accessibleSvg(svg: string, words: ChartWords): Html {
  const size = /^<svg[^>]* viewBox="([-\d. ]+)"[^>]*>/.exec(svg);
  const inside = svg.slice(svg.indexOf('>') + 1, svg.lastIndexOf('</svg>'));
  const lean = tidyIds(inside, words.id)
    .replace(/<[^<>]*>/g, tidyTag)
    .replace(/<(g|defs)><\/\1>/g, '');
  const [, , width] = (size?.[1] ?? '0 0 340 100').split(' ');
  return html`<svg role="img" aria-labelledby="${words.id}-t ${words.id}-d" viewBox="${size?.[1]}" style="max-width:${Math.round(
    Number(width) * 1.2,
  )}px"><title id="${words.id}-t">${words.title}</title><desc id="${words.id}-d">${words.description}</desc>${trusted(showable(lean))}</svg>`;
}

function tidyTag(tag: string): string {
  if (/ display="none"| opacity="0"/.test(tag) && tag.endsWith('/>')) return '';
  if (/^<path[^>]* d="M0,0h0v0h0Z"/.test(tag) || / class="background"/.test(tag)) return '';
  return tag
    .replace(idle, '')
    .replace(/ d="([^"]*)"/, (_whole, path: string) => ` d="${roundPath(path)}"`)
    .replace(/ transform="translate\(0,0\)"/, '');
}

/** Long curves are what makes a page heavy; a tenth of a pixel is finer than any screen shows. */
function roundPath(path: string): string {
  return path.replace(/-?\d+\.\d+(?:e-?\d+)?/g, (number) => String(Math.round(Number(number) * 10) / 10 + 0));
}

function tidyIds(svg: string, id: string): string {
  const names = new Map<string, string>();
  for (const [, name] of svg.matchAll(/<(?:clipPath|linearGradient|radialGradient) id="([^"]+)"/g)) {
    names.set(name as string, `${id}-c${names.size + 1}`);
  }
  return svg.replace(/<[^<>]*>/g, (tag) =>
    tag
      .replace(/ id="([^"]+)"/, (_whole, name: string) => ` id="${names.get(name) ?? `${id}-${name}`}"`)
      .replace(/url\(#([^)]+)\)/g, (whole, name: string) =>
        names.has(name) ? `url(#${names.get(name)})` : whole,
      ),
  );
}
