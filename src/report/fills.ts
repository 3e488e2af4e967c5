/** Patterns by which areas of charts are told apart without colour; shared by all charts of the page. */
export const fills = `<svg class="fills" width="0" height="0" aria-hidden="true" focusable="false"><defs>
<pattern id="fill-vapour" width="5" height="5" patternUnits="userSpaceOnUse"><rect width="5" height="5" fill="var(--paper)"/><circle cx="2.5" cy="2.5" r="1.1" fill="var(--petrol)"/></pattern>
<pattern id="fill-room" width="7" height="7" patternUnits="userSpaceOnUse" patternTransform="rotate(45)"><rect width="7" height="7" fill="var(--paper)"/><path d="M0 0V7" stroke="var(--quiet)" stroke-width="1.6"/></pattern>
<pattern id="fill-air" width="6" height="6" patternUnits="userSpaceOnUse"><rect width="6" height="6" fill="var(--paper)"/><path d="M0 3H6" stroke="var(--quiet)" stroke-width="1.6"/></pattern>
<pattern id="fill-body" width="6" height="6" patternUnits="userSpaceOnUse"><rect width="6" height="6" fill="var(--paper)"/><circle cx="3" cy="3" r="1.6" fill="var(--ochre)"/></pattern>
<pattern id="fill-assumed" width="5" height="5" patternUnits="userSpaceOnUse" patternTransform="rotate(-45)"><rect width="5" height="5" fill="var(--paper)"/><path d="M0 0V5" stroke="var(--petrol)" stroke-width="2.2"/></pattern>
</defs></svg>`;
