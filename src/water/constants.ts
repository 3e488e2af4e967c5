/** Specific gas constant of water, J/(kg K). Source: IAPWS R7-97(2012), eq. 1. */
export const WATER_GAS_CONSTANT = 461.526;

/** Lowest temperature of the formulation, K. Source: IAPWS R7-97(2012), section 2. */
export const LOWEST_K = 273.15;

/** Upper end of region 1 and of its border with region 2 along the saturation line, K. Source: as above. */
export const REGION_1_HIGHEST_K = 623.15;

/** Critical temperature, K. Source: IAPWS R7-97(2012), eq. 2. */
export const CRITICAL_K = 647.096;

/** Highest pressure of regions 1 and 2, Pa. Source: IAPWS R7-97(2012), section 2. */
export const HIGHEST_PA = 100e6;
