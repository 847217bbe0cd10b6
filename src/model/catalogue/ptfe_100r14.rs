//! PTFE hose with one stainless braid, as SAE 100R14: from memory of the standard, so the figures
//! of the hose in hand go before these. Hose sold under this name differs by a factor of two either
//! way, and some number it by bore (common practice).

use crate::model::{Construction, HoseKind, HoseSize, HoseSources, Mark, Source};
use crate::units::{Length, Pressure};

use super::rubber_8794::bore_mm;

const MEMORY: Source = Source::fixed(Mark::Memory, "SAE 100R14; take the figures of your own hose");
const OUTSIDE: Source = Source::fixed(Mark::Typical, "bore + 4 mm");
const BURST: Source = Source::fixed(Mark::Practice, "4 × working pressure");
const LENGTH_CHANGE: Source = Source::fixed(
    Mark::Practice,
    "none known for this hose; the general −4 % of FAA AC 43.13-1B fig. 9-9 is used",
);

/// Liner, braid and their play, on the bore, mm: 1 mm of liner and 1 mm of braid on either side.
/// Typical, no source.
const WALLS_MM: f64 = 4.0;
/// Burst over working pressure (common practice).
const BURST_RATIO: f64 = 4.0;
/// °C (from memory of SAE 100R14).
const RANGE: [f64; 2] = [-54.0, 204.0];

/// Dash; working psi, least radius in to the inside of the bend. From memory of SAE 100R14. The
/// bore is that of MIL-H-8794 (same mark).
const TABLE: [(u32, f64, f64); 9] = [
    (3, 1500.0, 1.5),
    (4, 1500.0, 2.0),
    (5, 1500.0, 3.0),
    (6, 1500.0, 4.0),
    (8, 1000.0, 5.25),
    (10, 800.0, 6.5),
    (12, 800.0, 7.75),
    (16, 800.0, 9.0),
    (20, 600.0, 16.0),
];

pub(super) fn hose() -> HoseKind {
    HoseKind {
        id: "ptfe-100r14".to_owned(),
        name: "PTFE, one stainless braid (SAE 100R14)".to_owned(),
        maker: None,
        construction: Construction::PtfeBraid,
        liner: Some("PTFE".to_owned()),
        // The standard knows both a plain and a conductive liner; which one, only the manufacturer can say.
        conductive_liner: None,
        temperature_c: Some(RANGE),
        length_change_pct: None,
        bend_to_centre: Some(false),
        sizes: TABLE.iter().map(size).collect(),
        sources: HoseSources {
            outside: OUTSIDE,
            burst: BURST,
            length_change: LENGTH_CHANGE,
            ..HoseSources::all(MEMORY)
        },
        extra: Vec::new(),
    }
}

fn size((dash, working, radius): &(u32, f64, f64)) -> HoseSize {
    let bore_mm = bore_mm(*dash);
    let working_bar = Pressure::from_psi(*working).bar();
    HoseSize {
        dash: *dash,
        bore_mm,
        outside_mm: bore_mm.map(|bore| bore + WALLS_MM),
        bend_radius_mm: Length::from_inches(*radius).mm(),
        max_pressure_bar: Some(working_bar),
        burst_bar: Some(BURST_RATIO * working_bar),
        ..HoseSize::default()
    }
}
