//! What flows: density and viscosity of the fluids that hoses carry, by temperature, each table with its
//! source. Where a liquid stands in for a fluid that is no single substance, its source says so.
//!
//! `CoolProp` 8.0.0: at 101.325 kPa, above the boiling point at 500 kPa absolute; the pressure of a hose
//! changes these figures by less than a few in a thousand.

use crate::model::{Fluid, Mark, Source};

/// A liquid at one temperature.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Point {
    /// Temperature.
    pub celsius: f64,
    /// Density.
    pub density_kg_m3: f64,
    /// Dynamic viscosity.
    pub viscosity_mpa_s: f64,
}

impl Point {
    const fn of(celsius: f64, density_kg_m3: f64, viscosity_mpa_s: f64) -> Self {
        Self { celsius, density_kg_m3, viscosity_mpa_s }
    }
}

/// Kinematic viscosity at a temperature: °C, mm²/s.
pub type At = (f64, f64);

/// A line of ASTM D341: through one point, as steep as the line through two.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Grade {
    /// The point that it goes through.
    pub through: At,
    /// Two points of a line as steep.
    pub steep_as: [At; 2],
}

impl Grade {
    const fn through(cool: At, hot: At) -> Self {
        Self { through: cool, steep_as: [cool, hot] }
    }
}

/// Oils, or fuels like them, that are sold under one name.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Oils {
    /// What is sold: the builder's is one of these, or between them.
    pub grades: &'static [Grade],
    /// Density at 20 °C.
    pub density_at_20_kg_m3: f64,
    /// What it loses with each degree.
    pub density_loss_per_k: f64,
    /// The temperatures to which the lines are drawn on.
    pub range_c: [f64; 2],
    /// A cold start to be told beside the service; none where that makes little difference.
    pub cold_start_c: Option<f64>,
}

/// How density and viscosity are known.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Known {
    /// At these temperatures, rising.
    Table(&'static [Point]),
    /// By lines of ASTM D341.
    Oils(Oils),
}

impl Known {
    /// The temperatures that there are figures for: least, greatest.
    pub fn range_c(&self) -> [f64; 2] {
        match self {
            Self::Table([first, .., last]) => [first.celsius, last.celsius],
            Self::Table(_) => [f64::INFINITY, f64::NEG_INFINITY],
            Self::Oils(oils) => oils.range_c,
        }
    }
}

/// A liquid of known density and viscosity.
#[derive(Debug, Clone, PartialEq)]
pub struct KnownFluid {
    /// What it is, as it is told: `n-octane standing in for petrol`.
    pub name: &'static str,
    /// Its figures.
    pub known: Known,
    /// Where they come from.
    pub source: Source,
    /// From which temperature on they are drawn on beyond that, and how.
    pub drawn_on: Option<(f64, Source)>,
}

impl KnownFluid {
    /// Where its figures at a temperature come from.
    pub fn source_at(&self, celsius: f64) -> &Source {
        match &self.drawn_on {
            Some((from_c, source)) if celsius > *from_c => source,
            _ => &self.source,
        }
    }
}

/// Why a fluid has no figures here.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum NoFluid {
    /// It is a gas, or next to nothing.
    Compressible,
    /// Its hoses are not sized by this program.
    NotSized,
    /// The user's own word.
    NotListed,
}

const COOLPROP: Source = Source::fixed(Mark::Published, "CoolProp 8.0.0");
const PETROL: Source = Source::fixed(
    Mark::StandIn,
    "n-octane of CoolProp 8.0.0; petrol itself is thinner, 0.5 to 0.6 mm²/s at 20 °C by the US DOE",
);
const PETROL_E10: Source = Source::fixed(
    Mark::StandIn,
    "n-octane of CoolProp 8.0.0, the ethanol left out; petrol itself is thinner, 0.5 to 0.6 mm²/s at \
     20 °C by the US DOE",
);
const E85: Source = Source::fixed(
    Mark::StandIn,
    "ethanol of CoolProp 8.0.0, the petrol left out, which would thin it",
);
const COOLANT: Source =
    Source::fixed(Mark::Published, "CoolProp 8.0.0, INCOMP::AEG[0.5]; another mixture differs");
const COOLANT_HOT: Source = Source::fixed(
    Mark::Calculated,
    "CoolProp 8.0.0, INCOMP::AEG[0.5] extrapolated beyond 100 °C: density linear, ln μ linear over 1/T from 60 to 90 °C; ±8 %; another mixture differs",
);
const HYDRAULIC: Source = Source::fixed(
    Mark::Typical,
    "at 40 °C the limits of ISO 3448, ±10 %: published; at 100 °C, and density: from memory of data sheets; ASTM \
     D341 between and beyond these, rough when cold; take the figures of your own oil",
);
const DIESEL: Source = Source::fixed(
    Mark::Typical,
    "2.8 to 5.0 mm²/s at 20 °C: US DOE, published; density, and how it thins with temperature by ASTM D341: from memory",
);
const OIL: Source = Source::fixed(
    Mark::Typical,
    "density, and viscosity at 40 and 100 °C, from memory; ASTM D341 between and beyond these; take the figures of \
     your own oil",
);
const GEAR_OIL: Source = Source::fixed(
    Mark::Typical,
    "density, and viscosity at 40 and 100 °C, from memory; ASTM D341 between and beyond these; an axle oil is far \
     thicker: take the figures of your own oil",
);

/// `CoolProp` 8.0.0, Water.
const WATER: [Point; 14] = [
    Point::of(0.0, 999.84, 1.7911),
    Point::of(10.0, 999.70, 1.3059),
    Point::of(20.0, 998.21, 1.0016),
    Point::of(30.0, 995.65, 0.7972),
    Point::of(40.0, 992.22, 0.6527),
    Point::of(50.0, 988.04, 0.5465),
    Point::of(60.0, 983.20, 0.4660),
    Point::of(70.0, 977.76, 0.4035),
    Point::of(80.0, 971.79, 0.3541),
    Point::of(90.0, 965.31, 0.3142),
    Point::of(100.0, 958.54, 0.2817),
    Point::of(110.0, 951.12, 0.2547),
    Point::of(120.0, 943.26, 0.2321),
    Point::of(130.0, 934.95, 0.2130),
];

/// `CoolProp` 8.0.0, Ethanol.
const ETHANOL: [Point; 7] = [
    Point::of(-20.0, 823.35, 2.9181),
    Point::of(0.0, 806.41, 1.8187),
    Point::of(20.0, 789.42, 1.1938),
    Point::of(40.0, 772.09, 0.8195),
    Point::of(60.0, 754.05, 0.5844),
    Point::of(80.0, 735.36, 0.4316),
    Point::of(100.0, 714.44, 0.3255),
];

/// `CoolProp` 8.0.0, Methanol.
const METHANOL: [Point; 6] = [
    Point::of(-20.0, 828.60, 1.1622),
    Point::of(0.0, 809.73, 0.8059),
    Point::of(20.0, 791.01, 0.5853),
    Point::of(40.0, 772.17, 0.4416),
    Point::of(60.0, 752.81, 0.3437),
    Point::of(80.0, 733.03, 0.2749),
];

/// `CoolProp` 8.0.0, n-Octane.
const OCTANE: [Point; 8] = [
    Point::of(-20.0, 734.43, 0.9910),
    Point::of(0.0, 718.61, 0.7149),
    Point::of(20.0, 702.61, 0.5441),
    Point::of(40.0, 686.36, 0.4305),
    Point::of(60.0, 669.75, 0.3506),
    Point::of(80.0, 652.68, 0.2914),
    Point::of(100.0, 635.01, 0.2459),
    Point::of(120.0, 616.57, 0.2096),
];

/// `CoolProp` 8.0.0, `INCOMP::AEG[0.5]`: 50 vol-% ethylene glycol in water; from 110 °C on [`COOLANT_HOT`].
const GLYCOL: [Point; 17] = [
    Point::of(-30.0, 1089.03, 42.7523),
    Point::of(-20.0, 1086.87, 22.8703),
    Point::of(-10.0, 1084.22, 13.2674),
    Point::of(0.0, 1081.08, 8.2790),
    Point::of(10.0, 1077.46, 5.5121),
    Point::of(20.0, 1073.35, 3.8841),
    Point::of(30.0, 1068.75, 2.8731),
    Point::of(40.0, 1063.66, 2.2131),
    Point::of(50.0, 1058.09, 1.7608),
    Point::of(60.0, 1052.04, 1.4353),
    Point::of(70.0, 1045.49, 1.1889),
    Point::of(80.0, 1038.46, 0.9928),
    Point::of(90.0, 1030.95, 0.8289),
    Point::of(GLYCOL_DATA_TO_C, 1022.95, 0.6864),
    Point::of(110.0, 1016.0, 0.603),
    Point::of(120.0, 1008.0, 0.521),
    Point::of(130.0, 1001.0, 0.453),
];

/// Where the data of [`GLYCOL`] end, °C.
const GLYCOL_DATA_TO_C: f64 = 100.0;

/// Thinnest and thickest that ISO 3448 lets a grade be at 40 °C: its middle less and more 10 %; as steep as
/// from its middle to what is typical at 100 °C.
const fn hydraulic_grades(at_40: f64, at_100: f64) -> [Grade; 2] {
    let steep_as = [(40.0, at_40), (100.0, at_100)];
    [
        Grade { through: (40.0, 0.9 * at_40), steep_as },
        Grade { through: (40.0, 1.1 * at_40), steep_as },
    ]
}

const VG_32: [Grade; 2] = hydraulic_grades(32.0, 5.4);
const VG_46: [Grade; 2] = hydraulic_grades(46.0, 6.8);
const VG_68: [Grade; 2] = hydraulic_grades(68.0, 8.7);

/// mm²/s at 40 and 100 °C of SAE 30, 5W-30 and 10W-40: typical, from memory.
const ENGINE_OILS: [Grade; 3] = [
    Grade::through((40.0, 93.0), (100.0, 10.8)),
    Grade::through((40.0, 62.0), (100.0, 10.6)),
    Grade::through((40.0, 95.0), (100.0, 14.2)),
];

/// mm²/s at 40 and 100 °C of ATF and thin gearbox oil: typical, from memory.
const THIN_OILS: [Grade; 1] = [Grade::through((40.0, 34.0), (100.0, 7.3))];

/// How diesel thins with temperature, mm²/s at 20 and 40 °C: typical, from memory.
const DIESEL_SLOPE: [At; 2] = [(20.0, 4.0), (40.0, 2.6)];

/// mm²/s at 20 °C, the ends of the US DOE's range (published).
const DIESELS: [Grade; 2] = [
    Grade { through: (20.0, 2.8), steep_as: DIESEL_SLOPE },
    Grade { through: (20.0, 5.0), steep_as: DIESEL_SLOPE },
];

const fn oils(grades: &'static [Grade]) -> Known {
    Known::Oils(Oils {
        grades,
        // Mineral oils have 850 to 880 kg/m³ (typical, from memory): 2 % either way.
        density_at_20_kg_m3: 865.0,
        density_loss_per_k: OIL_LOSS_PER_K,
        range_c: [0.0, 130.0],
        cold_start_c: Some(0.0),
    })
}

/// kg/m³ that a mineral oil loses with each degree: typical, from memory.
const OIL_LOSS_PER_K: f64 = 0.65;

/// Hydraulic mineral oil by its density at 15 °C, typical, from memory.
const fn hydraulic(grades: &'static [Grade], density_at_15_kg_m3: f64) -> Known {
    Known::Oils(Oils {
        grades,
        density_at_20_kg_m3: density_at_15_kg_m3 - 5.0 * OIL_LOSS_PER_K,
        density_loss_per_k: OIL_LOSS_PER_K,
        range_c: [0.0, 100.0],
        cold_start_c: Some(0.0),
    })
}

const DIESEL_FUEL: Known = Known::Oils(Oils {
    grades: &DIESELS,
    // Typical, from memory.
    density_at_20_kg_m3: 832.0,
    density_loss_per_k: 0.7,
    range_c: [0.0, 80.0],
    cold_start_c: None,
});

/// The liquid that is calculated with for a fluid.
///
/// # Errors
/// [`NoFluid`] where there is none.
pub fn known_fluid(fluid: &Fluid) -> Result<KnownFluid, NoFluid> {
    const PETROL_LIKE: &str = "n-octane standing in for petrol";
    let of = |name, known, source| Ok(KnownFluid { name, known, source, drawn_on: None });
    let vg = |name, grades, density| of(name, hydraulic(grades, density), HYDRAULIC);
    match fluid {
        Fluid::Petrol => of(PETROL_LIKE, Known::Table(&OCTANE), PETROL),
        Fluid::PetrolE10 => of(PETROL_LIKE, Known::Table(&OCTANE), PETROL_E10),
        Fluid::E85 => of("ethanol standing in for E85", Known::Table(&ETHANOL), E85),
        Fluid::Methanol => of("methanol", Known::Table(&METHANOL), COOLPROP),
        Fluid::Diesel => of("diesel, thin to thick", DIESEL_FUEL, DIESEL),
        Fluid::EngineOil => of("engine oil, 5W-30 to 10W-40 and SAE 30", oils(&ENGINE_OILS), OIL),
        Fluid::GearOil => of("thin gearbox oil", oils(&THIN_OILS), GEAR_OIL),
        Fluid::Atf => of("ATF", oils(&THIN_OILS), OIL),
        // As ATF (common practice).
        Fluid::PowerSteering => of("power-steering fluid, taken as ATF", oils(&THIN_OILS), OIL),
        Fluid::Coolant => Ok(KnownFluid {
            name: "50 vol-% ethylene glycol in water",
            known: Known::Table(&GLYCOL),
            source: COOLANT,
            drawn_on: Some((GLYCOL_DATA_TO_C, COOLANT_HOT)),
        }),
        Fluid::HydraulicVg32 => vg("hydraulic mineral oil ISO VG 32", &VG_32, 870.0),
        Fluid::HydraulicVg46 => vg("hydraulic mineral oil ISO VG 46", &VG_46, 876.0),
        Fluid::HydraulicVg68 => vg("hydraulic mineral oil ISO VG 68", &VG_68, 882.0),
        Fluid::Water => of("water", Known::Table(&WATER), COOLPROP),
        Fluid::Air | Fluid::Vacuum => Err(NoFluid::Compressible),
        Fluid::BrakeFluid | Fluid::Refrigerant => Err(NoFluid::NotSized),
        Fluid::Other(_) => Err(NoFluid::NotListed),
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn tables_rise_in_temperature_and_fall_in_all_else() {
        let mut tables = 0;
        for (fluid, _) in Fluid::KNOWN {
            let Ok(KnownFluid { known: Known::Table(points), .. }) = known_fluid(&fluid) else {
                continue;
            };
            tables += 1;
            for pair in points.windows(2) {
                assert!(pair[1].celsius > pair[0].celsius, "{fluid:?}");
                assert!(pair[1].density_kg_m3 < pair[0].density_kg_m3, "{fluid:?}");
                assert!(pair[1].viscosity_mpa_s < pair[0].viscosity_mpa_s, "{fluid:?}");
            }
        }
        assert_eq!(tables, 6);
    }

    // A published figure of another liquid is not a published figure of what flows.
    #[test]
    fn a_liquid_that_stands_in_for_another_says_so() {
        for (fluid, name) in
            [(Fluid::Petrol, "n-octane"), (Fluid::PetrolE10, "n-octane"), (Fluid::E85, "ethanol")]
        {
            let fluid = known_fluid(&fluid).unwrap();
            assert!(fluid.name.starts_with(&format!("{name} standing in for")), "{}", fluid.name);
            let told = fluid.source.to_string();
            assert!(told.starts_with(name) && told.contains("stand-in"), "{told}");
            assert_eq!(fluid.source.mark, Mark::StandIn);
        }
        assert_eq!(known_fluid(&Fluid::Water).unwrap().source.mark, Mark::Published);
    }

    #[test]
    fn what_has_no_figures_says_why() {
        for (fluid, why) in [
            (Fluid::Air, NoFluid::Compressible),
            (Fluid::Vacuum, NoFluid::Compressible),
            (Fluid::BrakeFluid, NoFluid::NotSized),
            (Fluid::Refrigerant, NoFluid::NotSized),
            (Fluid::Other("chain oil".to_owned()), NoFluid::NotListed),
        ] {
            assert_eq!(known_fluid(&fluid), Err(why));
        }
    }
}
