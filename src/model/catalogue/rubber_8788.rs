//! Rubber hose with several wire braids, MIL-H-8788. Its outside diameters were not found in a
//! public document: the run has to give the measured one.

use crate::model::{Construction, HoseKind, HoseSize, HoseSources, Mark, Source};
use crate::units::{Length, Pressure};

use super::rubber_8794::{LENGTH_CHANGE, LENGTH_CHANGE_PCT};

const TABLE_4_15: Source = Source::fixed(Mark::Published, "Army TM 1-1500-204-23-2, Table 4-15");
const BORE: Source = Source::fixed(Mark::Published, "FAA AC 43.13-1B");
const NOT_FOUND: Source = Source::fixed(Mark::Typical, "no public figure found");

/// psi, all sizes (Army TM 1-1500-204-23-2, Table 4-15).
const WORKING_PSI: f64 = 3000.0;

/// Dash; bore in (FAA AC 43.13-1B), burst psi, least radius in to the inside of the bend (Army TM
/// 1-1500-204-23-2, Table 4-15). Burst of −16: not read.
const TABLE: [(u32, f64, Option<f64>, f64); 7] = [
    (4, 7.0 / 32.0, Some(16000.0), 3.0),
    (5, 9.0 / 32.0, Some(14000.0), 3.0 + 3.0 / 8.0),
    (6, 11.0 / 32.0, Some(14000.0), 5.0),
    (8, 7.0 / 16.0, Some(14000.0), 5.0 + 3.0 / 4.0),
    (10, 9.0 / 16.0, Some(12000.0), 6.5),
    (12, 11.0 / 16.0, Some(12000.0), 7.0 + 3.0 / 4.0),
    (16, 7.0 / 8.0, None, 9.0 + 5.0 / 8.0),
];

pub(super) fn hose() -> HoseKind {
    HoseKind {
        id: "rubber-mil-h-8788".to_owned(),
        name: "Rubber, several wire braids (MIL-H-8788)".to_owned(),
        maker: None,
        construction: Construction::RubberBraid,
        liner: None,
        conductive_liner: None,
        temperature_c: None,
        length_change_pct: Some(LENGTH_CHANGE_PCT),
        bend_to_centre: Some(false),
        sizes: TABLE.iter().map(size).collect(),
        sources: HoseSources {
            bore: BORE,
            outside: NOT_FOUND,
            temperature: NOT_FOUND,
            length_change: LENGTH_CHANGE,
            ..HoseSources::all(TABLE_4_15)
        },
        extra: Vec::new(),
    }
}

fn size((dash, bore, burst, radius): &(u32, f64, Option<f64>, f64)) -> HoseSize {
    HoseSize {
        dash: *dash,
        bore_mm: Some(Length::from_inches(*bore).mm()),
        bend_radius_mm: Length::from_inches(*radius).mm(),
        max_pressure_bar: Some(Pressure::from_psi(WORKING_PSI).bar()),
        burst_bar: burst.map(|psi| Pressure::from_psi(psi).bar()),
        ..HoseSize::default()
    }
}
