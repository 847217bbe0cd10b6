//! Rubber hose with one wire braid, MIL-H-8794.

use crate::model::{Construction, HoseKind, HoseSize, HoseSources, Mark, Source};
use crate::units::{Length, Pressure};

const TABLE_9_3: Source = Source::fixed(Mark::Published, "FAA AC 43.13-1B, Table 9-3");
/// +2 % to −4 %.
pub(super) const LENGTH_CHANGE: Source =
    Source::fixed(Mark::Published, "FAA AC 43.13-1B, fig. 9-9");
/// Change of length under pressure, shortest and longest, per cent ([`LENGTH_CHANGE`]).
pub(super) const LENGTH_CHANGE_PCT: [f64; 2] = [-4.0, 2.0];

/// Dash; bore in, outside in, working psi, burst psi, proof psi, least radius in (to the inside of
/// the bend). FAA AC 43.13-1B, Table 9-3.
const TABLE: [(u32, [f64; 6]); 11] = [
    (3, [1.0 / 8.0, 0.45, 3000.0, 12000.0, 6000.0, 3.00]),
    (4, [3.0 / 16.0, 0.52, 3000.0, 12000.0, 6000.0, 3.00]),
    (5, [1.0 / 4.0, 0.58, 3000.0, 10000.0, 5000.0, 3.38]),
    (6, [5.0 / 16.0, 0.67, 2000.0, 9000.0, 4500.0, 4.00]),
    (8, [13.0 / 32.0, 0.77, 2000.0, 8000.0, 4000.0, 4.63]),
    (10, [1.0 / 2.0, 0.92, 1750.0, 7000.0, 3500.0, 5.50]),
    (12, [5.0 / 8.0, 1.08, 1750.0, 6000.0, 3000.0, 6.50]),
    (16, [7.0 / 8.0, 1.23, 800.0, 3200.0, 1600.0, 7.38]),
    (20, [1.0 + 1.0 / 8.0, 1.50, 600.0, 2500.0, 1250.0, 9.00]),
    (24, [1.0 + 3.0 / 8.0, 1.75, 500.0, 2000.0, 1000.0, 11.00]),
    (32, [1.0 + 13.0 / 16.0, 2.22, 350.0, 1400.0, 700.0, 13.25]),
];

/// °C, to −12 and above it (same table).
const RANGE_TO_12: [f64; 2] = [-54.0, 121.0];
const RANGE_ABOVE_12: [f64; 2] = [-40.0, 135.0];

/// The bore of one dash number, mm; also that of the PTFE hose.
pub(super) fn bore_mm(dash: u32) -> Option<f64> {
    let (_, columns) = TABLE.iter().find(|(d, _)| *d == dash)?;
    Some(Length::from_inches(columns[0]).mm())
}

pub(super) fn hose() -> HoseKind {
    HoseKind {
        id: "rubber-mil-h-8794".to_owned(),
        name: "Rubber, one wire braid (MIL-H-8794)".to_owned(),
        maker: None,
        construction: Construction::RubberBraid,
        // "Synthetic rubber" is all the table says.
        liner: None,
        conductive_liner: None,
        temperature_c: Some(RANGE_TO_12),
        length_change_pct: Some(LENGTH_CHANGE_PCT),
        bend_to_centre: Some(false),
        sizes: TABLE.iter().map(size).collect(),
        sources: HoseSources { length_change: LENGTH_CHANGE, ..HoseSources::all(TABLE_9_3) },
        extra: Vec::new(),
    }
}

fn size((dash, [bore, outside, working, burst, proof, radius]): &(u32, [f64; 6])) -> HoseSize {
    HoseSize {
        dash: *dash,
        bore_mm: Some(Length::from_inches(*bore).mm()),
        outside_mm: Some(Length::from_inches(*outside).mm()),
        bend_radius_mm: Length::from_inches(*radius).mm(),
        max_pressure_bar: Some(Pressure::from_psi(*working).bar()),
        burst_bar: Some(Pressure::from_psi(*burst).bar()),
        proof_bar: Some(Pressure::from_psi(*proof).bar()),
        temperature_c: (*dash > 12).then_some(RANGE_ABOVE_12),
        ..HoseSize::default()
    }
}
