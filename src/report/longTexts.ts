/** Cautions of the report itself; those of a protocol stand in its file. */
export const cautionTexts = {
  heading: 'Cautions',
  ofProtocol: (title: string) => `From the protocol ${title}`,
  general: 'For whoever repeats this test, or uses its figures',
  list: [
    'Mains: only through an unopened plug-in meter, behind a residual-current device; dry hands at the plug.',
    'Hot water and steam scald. A heater that is on is never left alone.',
    'Battery packs: fuse every string, mind the voltage of cells in series, prevent short circuits, keep every cell within its limits, charge only with what is made for it.',
    'Food: follow the local code of food safety and check with a probe; no figure of this report replaces that.',
    'Local codes and licensed practice come first where they differ from this page.',
  ],
} as const;

/** Definitions and formulas in words, and their sources. */
export const methodTexts = {
  heading: 'Method and definitions',
  terms: [
    [
      'Metered energy',
      'Energy from switch-on to switch-off, stand-by draw included; from the log where there is one, else from the counter as typed. Where both exist they must agree within their uncertainty.',
    ],
    [
      'Into the water',
      'Heat that stays in the water over the metered energy. The heat is the mass after the heating times the rise of the specific enthalpy from the start reading to the stirred end reading.',
    ],
    [
      'Into water and vapour',
      'The same with the heat of the vapour: mass lost times the enthalpy of steam at the temperature at which it left, less that of water at the start.',
    ],
    [
      'Into water and vessel',
      'The same with the heat of the vessel: wetted share times mass times specific heat times rise.',
    ],
    [
      'Room and rest',
      'Metered energy less all the other entries. Without a measured loss coefficient it is not divided further; with one, the room is that coefficient times the temperature above the room over time, and the heat of vapour is no part of it.',
    ],
    [
      'Without the loss to the room',
      'The loss correction of Regnault and Pfaundler, from the drifts of the temperature before and after the heating. It stands beside the efficiency and never in its place.',
    ],
    ['Mass', 'Weighings are corrected for the buoyancy of air.'],
    [
      'Doubt',
      'Every reading is its indication plus the errors of named sources. A source that several readings share is the same error in all of them, so repeats do not shrink it and it cancels in differences. Contributions are sensitivity times standard uncertainty; they add as squares. Degrees of freedom: Welch and Satterthwaite; coverage factor: Student’s t.',
    ],
    [
      'Runs to a figure',
      'Mean after Paule and Mandel, its variance after Hartung and Knapp, ranges from a confidence mixture over the variance between runs, with the shared sources on top. One future heating has the scatter of a single run added.',
    ],
    [
      'Few runs',
      'With one or two runs the scatter is an assumption, labelled so and never zero; such a figure is no ground for signing.',
    ],
  ],
  sourcesTitle: 'Sources',
  sources: [
    'JCGM 100:2008, Guide to the expression of uncertainty in measurement (GUM).',
    'IAPWS R7-97(2012), Industrial Formulation 1997 for water and steam (IAPWS-IF97).',
    'ISO 2533:1975, Standard atmosphere, for the air pressure at an altitude.',
    'Allowances and assumed limits: common practice, no source.',
  ],
} as const;
