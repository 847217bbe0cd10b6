//! Every unit that may be typed, and how each quantity is written.

use super::{Grammar, Quantity, Terms, Unit};

/// Millimetres in an inch, exactly (the international inch of 1959).
pub(in crate::units) const MM_PER_INCH: f64 = 25.4;

/// Tenths of a millimetre in an inch.
pub(in crate::units) const TENTHS_PER_INCH: f64 = 254.0;

/// Metres in a foot, exactly.
pub(in crate::units) const METRES_PER_FOOT: f64 = 0.3048;

pub(in crate::units) const INCH: Unit = Unit { shift: 0.0, scale: TENTHS_PER_INCH, over: 10.0 };
/// Twelve inches.
const FOOT: Unit = Unit { shift: 0.0, scale: 12.0 * TENTHS_PER_INCH, over: 10.0 };
pub(in crate::units) const MM: Unit = Unit::of(1.0);
const CM: Unit = Unit::of(10.0);
const METRE: Unit = Unit::of(1000.0);

/// How lengths are written.
pub(in crate::units) const LENGTH: Grammar = Grammar {
    quantity: Quantity::Length,
    terms: Terms::Sum,
    joined: Some((FOOT, INCH)),
    units: &[
        ("in", INCH),
        ("in.", INCH),
        ("inch", INCH),
        ("inches", INCH),
        ("\"", INCH),
        ("″", INCH),
        ("”", INCH),
        ("''", INCH),
        ("′′", INCH),
        ("ft", FOOT),
        ("ft.", FOOT),
        ("foot", FOOT),
        ("feet", FOOT),
        ("'", FOOT),
        ("′", FOOT),
        ("’", FOOT),
        ("mm", MM),
        ("millimetre", MM),
        ("millimetres", MM),
        ("millimeter", MM),
        ("millimeters", MM),
        ("cm", CM),
        ("centimetre", CM),
        ("centimetres", CM),
        ("centimeter", CM),
        ("centimeters", CM),
        ("m", METRE),
        ("metre", METRE),
        ("metres", METRE),
        ("meter", METRE),
        ("meters", METRE),
    ],
};

pub(in crate::units) const DEGREE: Unit = Unit::of(1.0);
const RADIAN: Unit = Unit::of(180.0 / std::f64::consts::PI);

/// How angles are written.
pub(in crate::units) const ANGLE: Grammar = Grammar {
    quantity: Quantity::Angle,
    terms: Terms::Sum,
    joined: None,
    units: &[
        ("°", DEGREE),
        ("º", DEGREE),
        ("deg", DEGREE),
        ("deg.", DEGREE),
        ("degree", DEGREE),
        ("degrees", DEGREE),
        ("rad", RADIAN),
        ("radian", RADIAN),
        ("radians", RADIAN),
    ],
};

/// Pascal in a pound-force per square inch: 6894.757293168…, from the definitions, which are exact:
/// 1 lb = 0.45359237 kg, standard gravity 9.80665 m/s², 1 in = 0.0254 m.
const PA_PER_PSI: f64 = 0.453_592_37 * 9.806_65 / (0.0254 * 0.0254);

/// Pascal in a bar, exactly.
const PA_PER_BAR: f64 = 1e5;

pub(in crate::units) const BAR: Unit = Unit::of(1.0);
pub(in crate::units) const PSI: Unit = Unit::of(PA_PER_PSI / PA_PER_BAR);
const PASCAL: Unit = Unit::of(1.0 / PA_PER_BAR);
const KILOPASCAL: Unit = Unit::of(0.01);
const MEGAPASCAL: Unit = Unit::of(10.0);

/// How pressures are written.
pub(in crate::units) const PRESSURE: Grammar = Grammar {
    quantity: Quantity::Pressure,
    terms: Terms::Sum,
    joined: None,
    units: &[
        ("bar", BAR),
        ("barg", BAR),
        ("bar(g)", BAR),
        ("psi", PSI),
        ("psig", PSI),
        ("psi(g)", PSI),
        ("lbf/in2", PSI),
        ("lbf/in²", PSI),
        ("lb/in2", PSI),
        ("lb/in²", PSI),
        ("pa", PASCAL),
        ("kpa", KILOPASCAL),
        ("mpa", MEGAPASCAL),
    ],
};

/// Absolute zero, exactly (definition of the Celsius scale).
pub(in crate::units) const ABSOLUTE_ZERO_C: f64 = -273.15;

pub(in crate::units) const CELSIUS: Unit = Unit::of(1.0);
pub(in crate::units) const FAHRENHEIT: Unit = Unit { shift: -32.0, scale: 1.0, over: 1.8 };
const KELVIN: Unit = Unit { shift: ABSOLUTE_ZERO_C, scale: 1.0, over: 1.0 };

/// How temperatures are written. Degrees are not added up; bare numbers may be.
pub(in crate::units) const TEMPERATURE: Grammar = Grammar {
    quantity: Quantity::Temperature,
    terms: Terms::One,
    joined: None,
    units: &[
        ("°C", CELSIUS),
        ("º C", CELSIUS),
        ("ºC", CELSIUS),
        ("° C", CELSIUS),
        ("℃", CELSIUS),
        ("C", CELSIUS),
        ("deg C", CELSIUS),
        ("degC", CELSIUS),
        ("celsius", CELSIUS),
        ("°F", FAHRENHEIT),
        ("ºF", FAHRENHEIT),
        ("° F", FAHRENHEIT),
        ("º F", FAHRENHEIT),
        ("℉", FAHRENHEIT),
        ("F", FAHRENHEIT),
        ("deg F", FAHRENHEIT),
        ("degF", FAHRENHEIT),
        ("fahrenheit", FAHRENHEIT),
        ("K", KELVIN),
        ("kelvin", KELVIN),
    ],
};

/// Litres in a US gallon, exactly: 231 cubic inches of 25.4 mm.
const L_PER_US_GALLON: f64 = 231.0 * 0.254 * 0.254 * 0.254;

pub(in crate::units) const LPM: Unit = Unit::of(1.0);
const LITRE_AN_HOUR: Unit = Unit::of(1.0 / 60.0);
pub(in crate::units) const US_GPM: Unit = Unit::of(L_PER_US_GALLON);
const US_GALLON_AN_HOUR: Unit = Unit::of(L_PER_US_GALLON / 60.0);

/// How flows are written.
pub(in crate::units) const FLOW: Grammar = Grammar {
    quantity: Quantity::Flow,
    terms: Terms::Sum,
    joined: None,
    units: &[
        ("L/min", LPM),
        ("lpm", LPM),
        ("L/h", LITRE_AN_HOUR),
        ("lph", LITRE_AN_HOUR),
        ("US gal/min", US_GPM),
        ("gal/min", US_GPM),
        ("US gpm", US_GPM),
        ("gpm", US_GPM),
        ("US gal/h", US_GALLON_AN_HOUR),
        ("gal/h", US_GALLON_AN_HOUR),
        ("gph", US_GALLON_AN_HOUR),
    ],
};

/// Kilograms in a pound, exactly (the international pound of 1959).
pub(in crate::units) const KG_PER_LB: f64 = 0.453_592_37;

/// Kilograms per cubic metre in a pound per cubic foot.
pub(in crate::units) const KG_M3_PER_LB_FT3: f64 =
    KG_PER_LB / (METRES_PER_FOOT * METRES_PER_FOOT * METRES_PER_FOOT);

const SAME: Unit = Unit::of(1.0);
const LB_FT3: Unit = Unit::of(KG_M3_PER_LB_FT3);
const G_CM3: Unit = Unit::of(1000.0);

pub(in crate::units) const DENSITY: Grammar = Grammar {
    quantity: Quantity::Density,
    terms: Terms::Sum,
    joined: None,
    units: &[
        ("kg/m³", SAME),
        ("kg/m3", SAME),
        ("g/cm³", G_CM3),
        ("g/cm3", G_CM3),
        ("kg/L", G_CM3),
        ("lb/ft³", LB_FT3),
        ("lb/ft3", LB_FT3),
    ],
};

pub(in crate::units) const VISCOSITY: Grammar = Grammar {
    quantity: Quantity::Viscosity,
    terms: Terms::Sum,
    joined: None,
    units: &[("mm²/s", SAME), ("mm2/s", SAME), ("cSt", SAME)],
};

pub(in crate::units) const ONE: Unit = Unit::of(1.0);

/// How shares are written.
pub(in crate::units) const PERCENT: Grammar = Grammar {
    quantity: Quantity::Percent,
    terms: Terms::Sum,
    joined: None,
    units: &[("%", ONE), ("per cent", ONE), ("percent", ONE), ("pct", ONE)],
};

/// How plain numbers are written.
pub(in crate::units) const NUMBER: Grammar =
    Grammar { quantity: Quantity::Number, terms: Terms::Sum, joined: None, units: &[] };

/// Every grammar with units, to tell a unit of the wrong quantity from one that does not exist.
pub(super) const ALL: [&Grammar; 8] =
    [&LENGTH, &ANGLE, &PRESSURE, &TEMPERATURE, &FLOW, &DENSITY, &VISCOSITY, &PERCENT];
