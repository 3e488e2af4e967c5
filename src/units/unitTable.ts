import type { QuantityKind } from './quantityKinds.js';
import type { UnitRow } from './unitRow.js';
import { electricalUnits } from './unitTableElectrical.js';

/** Numerator of the pound over 10⁸ and of Btu_IT over 5·10⁷, used in several rows. */
const LB = 45_359_237; // 0.453 592 37 kg exactly: international agreement of 1959; NIST SP 811 (2008), B.8
const BTU = 52_752_792_631; // 1055.055 852 62 J exactly: 4.1868 J/(g K) x 1 lb x 5/9 K; NIST SP 811 (2008), B.8
const GAL_US = 473_176_473; // over 1.25e11: 231 cubic inches exactly; NIST SP 811 (2008), B.8
const GAL_IMP = 454_609; // over 1e8: 4.546 09 L exactly; NIST SP 811 (2008), B.8

/**
 * Every unit the program reads, by kind. Spellings are separated by `|` and are compared without regard to capitals
 * where that leaves no doubt. Decimal multiples are those of the SI brochure (BIPM, 9th edition); min, h, d, L, t
 * are its table 8; the sources of all other rows stand beside them.
 */
export const unitTable: Readonly<Record<QuantityKind, readonly UnitRow[]>> = {
  mass: [
    ['kg', 1, 1, 'kilogram|kilograms|kilogramme|kilogrammes|kilo|kilos|kgs'],
    ['g', 1, 1000, 'gram|grams|gramme|grammes'],
    ['mg', 1, 1e6, 'milligram|milligrams'],
    ['t', 1000, 1, 'tonne|tonnes|metric ton|ton|tons'],
    ['lb', LB, 1e8, 'lbs|lbm|pound|pounds'],
    ['oz', LB, 16e8, 'ounce|ounces'], // 1/16 lb; NIST SP 811 (2008), B.8
    ['US ton', 2000 * LB, 1e8, 'short ton|short tons|ton|tons'], // 2000 lb; NIST SP 811 (2008), B.8
    ['imp ton', 2240 * LB, 1e8, 'long ton|long tons|ton|tons'], // 2240 lb; NIST SP 811 (2008), B.8
  ],
  temperature: [
    ['K', 1, 1, 'kelvin|kelvins|°K'],
    ['°C', 1, 1, 'C|celsius|°celsius|centigrade', 0], // T/K = t/°C + 273.15: SI brochure, 9th edition, 2.3.1
    ['°F', 5, 9, 'F|fahrenheit|°fahrenheit', 32], // t/°C = (t/°F - 32)/1.8; NIST SP 811 (2008), B.8
    ['°R', 5, 9, 'rankine|°rankine'], // T/K = (T/°R)/1.8; NIST SP 811 (2008), B.8
  ],
  temperatureDifference: [
    ['K', 1, 1, 'kelvin|kelvins|°K'],
    ['mK', 1, 1000, 'millikelvin'],
    ['°C', 1, 1, 'C|celsius|°celsius|centigrade'],
    ['°F', 5, 9, 'F|fahrenheit|°fahrenheit'], // NIST SP 811 (2008), B.8
  ],
  energy: [
    ['J', 1, 1, 'joule|joules|W s|Ws'],
    ['mJ', 1, 1000, 'millijoule|millijoules'],
    ['kJ', 1000, 1, 'kilojoule|kilojoules|kW s|kWs'],
    ['MJ', 1e6, 1, 'megajoule|megajoules'],
    ['GJ', 1e9, 1, 'gigajoule|gigajoules'],
    ['Wh', 3600, 1, 'W h|watt hour|watt hours|watt-hour|watt-hours'],
    ['mWh', 18, 5, 'mW h|milliwatt hour|milliwatt hours'],
    ['kWh', 3.6e6, 1, 'kW h|kilowatt hour|kilowatt hours|kilowatt-hour|kilowatt-hours'],
    ['MWh', 3.6e9, 1, 'MW h|megawatt hour|megawatt hours'],
    // A bare Btu is read as Btu_IT, as heating ratings use it (common practice, no source); a bare calorie has no such usage.
    ['Btu', BTU, 5e7, 'Btus|Btu_IT|BtuIT'],
    ['Btu_th', 23_722_880_951, 22_500_000, 'Btuth'], // 4.184 J/(g K) x 1 lb x 5/9 K; NIST SP 811 (2008), B.8
    ['cal_IT', 10_467, 2500, 'calIT|cal|calorie|calories'], // 4.1868 J: Int. Conf. Properties of Steam, 1956; SP 811
    ['cal_th', 523, 125, 'calth|cal|calorie|calories'], // 4.184 J; NIST SP 811 (2008), B.8
    ['kcal_IT', 20_934, 5, 'kcalIT|kcal|kilocalorie|kilocalories|Cal'],
    ['kcal_th', 4184, 1, 'kcalth|kcal|kilocalorie|kilocalories|Cal'],
    ['US therm', 105_480_400, 1, 'therm|therms'], // NIST SP 811 (2008), B.8
    ['EC therm', 105_506_000, 1, 'therm|therms'], // NIST SP 811 (2008), B.8
  ],
  power: [
    ['W', 1, 1, 'watt|watts|J/s'],
    ['mW', 1, 1000, 'milliwatt|milliwatts'],
    ['kW', 1000, 1, 'kilowatt|kilowatts|kJ/s'],
    ['MW', 1e6, 1, 'megawatt|megawatts'],
    ['Btu/h', BTU, 1.8e11, 'Btu_IT/h|Btu/hr|Btuh'],
    // 550 ft lbf/s; NIST SP 811 (2008), B.8. The numerator 37 284 993 579 113 511 is above 2^53: kept to 1 in 10^16.
    ['hp', 37_284_993_579_113_512, 5e13, 'horsepower'],
  ],
  pressure: [
    ['Pa', 1, 1, 'pascal|pascals|N/m2'],
    ['hPa', 100, 1, 'hectopascal|hectopascals'],
    ['kPa', 1000, 1, 'kilopascal|kilopascals'],
    ['MPa', 1e6, 1, 'megapascal|megapascals'],
    ['bar', 1e5, 1, 'bars'], // NIST SP 811 (2008), B.8
    ['mbar', 100, 1, 'millibar|millibars|mb'],
    ['atm', 101_325, 1, 'atmosphere|atmospheres'], // 10th CGPM, 1954; NIST SP 811 (2008), B.8
    ['psi', 8_896_443_230_521, 1_290_320_000, 'psia|lbf/in2|lb/in2'], // 1 lbf/in²; NIST SP 811 (2008), B.8
    ['mmHg', 26_664_477_483, 2e8, 'mm Hg|mm of mercury'], // 13 595.1 kg/m³ x 9.806 65 m/s² x 1 mm; SP 811 (2008), B.8
    ['inHg', 3_386_388_640_341, 1e9, 'in Hg|"Hg|inches Hg|in of mercury|inches of mercury'], // 25.4 mmHg; SP 811, B.8
    ['Torr', 20_265, 152], // 101 325/760 Pa; NIST SP 811 (2008), B.8
  ],
  length: [
    ['m', 1, 1, 'metre|metres|meter|meters|m a.s.l|masl'],
    ['µm', 1, 1e6, 'um|micrometre|micrometer|micron|microns'],
    ['mm', 1, 1000, 'millimetre|millimetres|millimeter|millimeters'],
    ['cm', 1, 100, 'centimetre|centimetres|centimeter|centimeters'],
    ['km', 1000, 1, 'kilometre|kilometres|kilometer|kilometers'],
    ['in', 127, 5000, 'inch|inches'], // 25.4 mm: international agreement of 1959; NIST SP 811 (2008), B.8
    ['ft', 381, 1250, 'foot|feet'], // 12 in; NIST SP 811 (2008), B.8
    ['yd', 1143, 1250, 'yard|yards'], // 3 ft; NIST SP 811 (2008), B.8
    ['mi', 201_168, 125, 'mile|miles'], // 5280 ft; NIST SP 811 (2008), B.8
  ],
  time: [
    ['s', 1, 1, 'sec|secs|second|seconds'],
    ['ms', 1, 1000, 'millisecond|milliseconds'],
    ['min', 60, 1, 'mins|minute|minutes'],
    ['h', 3600, 1, 'hr|hrs|hour|hours'],
    ['d', 86_400, 1, 'day|days'],
  ],
  heatCapacity: [
    ['J/K', 1, 1, 'J/°C|J K-1'],
    ['kJ/K', 1000, 1, 'kJ/°C|kJ K-1'],
    ['MJ/K', 1e6, 1, 'MJ/°C'],
    ['Wh/K', 3600, 1, 'Wh/°C|W h/K'],
    ['Btu/°F', 9 * BTU, 2.5e8, 'Btu/F|Btu_IT/°F'], // Btu_IT over 5/9 K
  ],
  specificHeat: [
    ['J/(kg K)', 1, 1, 'J/(kg °C)|J/kg/K|J/kgK|J/kg K|J/kg °C|J/(kgK)|J kg-1 K-1'],
    ['kJ/(kg K)', 1000, 1, 'kJ/(kg °C)|kJ/kg/K|kJ/kgK|kJ/kg K|kJ/kg °C|kJ/(kgK)|kJ kg-1 K-1'],
    ['J/(g K)', 1000, 1, 'J/(g °C)|J/g/K|J/gK|J/g K|J/g °C|J/(gK)|J g-1 K-1'],
    ['Wh/(kg K)', 3600, 1, 'Wh/(kg °C)|Wh/kg/K|Wh/kgK|Wh/kg K'],
    ['Btu/(lb °F)', 20_934, 5, 'Btu/(lb F)|Btu/lb/°F|Btu/lb °F|Btu/lb F|Btu_IT/(lb °F)'], // 4186.8 J/(kg K); SP 811, B.8
    ['cal_IT/(g °C)', 20_934, 5, 'cal_IT/(g K)|cal/(g °C)|cal/(g K)|cal/g °C|cal/g/°C'],
    ['cal_th/(g °C)', 4184, 1, 'cal_th/(g K)|cal/(g °C)|cal/(g K)|cal/g °C|cal/g/°C'],
  ],
  volume: [
    ['m³', 1, 1, 'm3|cubic metre|cubic metres|cubic meter|cubic meters'],
    ['L', 1, 1000, 'l|ltr|litre|litres|liter|liters|dm³|dm3'],
    ['mL', 1, 1e6, 'ml|millilitre|millilitres|milliliter|milliliters|cm³|cm3|cc'],
    ['cL', 1, 1e5, 'cl|centilitre|centilitres'],
    ['dL', 1, 1e4, 'dl|decilitre|decilitres'],
    ['US gal', GAL_US, 1.25e11, 'gal US|US gallon|US gallons|gal|gals|gallon|gallons'],
    ['US qt', GAL_US, 5e11, 'US quart|US quarts|qt|quart|quarts'], // 1/4 gal
    ['US pt', GAL_US, 10e11, 'US pint|US pints|pt|pint|pints'], // 1/8 gal
    ['US cup', GAL_US, 20e11, 'US cups'], // 1/16 gal
    ['US fl oz', GAL_US, 160e11, 'US fluid ounce|US fluid ounces|fl oz|fluid ounce|fluid ounces'], // 1/128 gal
    ['imp gal', GAL_IMP, 1e8, 'gal imp|UK gal|imp gallon|imp gallons|gal|gals|gallon|gallons'],
    ['imp qt', GAL_IMP, 4e8, 'UK qt|imp quart|imp quarts|qt|quart|quarts'], // 1/4 gal
    ['imp pt', GAL_IMP, 8e8, 'UK pt|imp pint|imp pints|pt|pint|pints'], // 1/8 gal
    ['imp fl oz', GAL_IMP, 160e8, 'UK fl oz|imp fluid ounce|fl oz|fluid ounce|fluid ounces'], // 1/160 gal
    ['ft³', 55_306_341, 1_953_125_000, 'ft3|cu ft|cubic foot|cubic feet'], // 0.3048³ m³ exactly
    ['in³', 2_048_383, 125e9, 'in3|cu in|cubic inch|cubic inches'], // 0.0254³ m³ exactly
  ],
  conductance: [
    ['W/K', 1, 1, 'W/°C|W K-1'],
    ['mW/K', 1, 1000, 'mW/°C'],
    ['kW/K', 1000, 1, 'kW/°C'],
    ['Btu/(h °F)', BTU, 1e11, 'Btu/(h F)|Btu/h/°F|Btu/h °F|Btu/(hr °F)'], // Btu_IT per hour over 5/9 K
  ],
  ratio: [
    ['1', 1, 1, 'fraction'],
    ['%', 1, 100, 'percent|per cent|pct'],
    ['‰', 1, 1000, 'permille|per mille'],
    ['ppm', 1, 1e6],
  ],
  ...electricalUnits,
};
