//! Hexagon of 37° flare nuts, and of the spanner on it.

use crate::model::{Mark, Source};
use crate::units::Length;

/// Where [`nut_flats_mm`] comes from.
pub const AN818: Source = Source::fixed(
    Mark::Published,
    "AN818 Rev 20, nut, tube coupling, short; \u{2212}14: flare nuts of the type of SAE J514, as machine manufacturers print them",
);
/// Where [`spanner_radius_mm`] comes from.
pub const SPANNER: Source = Source::fixed(
    Mark::Typical,
    "head of an open-end spanner 2.2 times as wide as the nut across flats, from memory of ISO 3318",
);

/// Across flats, inches, by dash.
const FLATS_INCH: [(u32, f64); 14] = [
    (2, 0.375),
    (3, 0.437),
    (4, 0.562),
    (5, 0.625),
    (6, 0.687),
    (8, 0.875),
    (10, 1.0),
    (12, 1.25),
    (14, 1.375),
    (16, 1.5),
    (20, 2.0),
    (24, 2.25),
    (28, 2.625),
    (32, 2.875),
];

/// Width across flats of the swivel nut of a size; none where no table lists it.
pub fn nut_flats_mm(dash: u32) -> Option<f64> {
    let (_, inches) = FLATS_INCH.iter().find(|(known, _)| *known == dash)?;
    Some(Length::from_inches(*inches).mm())
}

/// Across sharp corners (calculated; real ones are chamfered, a few per cent less).
pub fn across_corners_mm(flats_mm: f64) -> f64 {
    flats_mm * 2.0 / 3.0_f64.sqrt()
}

/// From the nut's axis to the outside of a spanner's head.
pub fn spanner_radius_mm(flats_mm: f64) -> f64 {
    1.1 * flats_mm
}

/// Thickness of the head: 5 mm at 11 mm across flats, 17 at 73 (typical, from memory).
pub fn spanner_thickness_mm(flats_mm: f64) -> f64 {
    3.0 + 0.19 * flats_mm
}

#[cfg(test)]
mod tests {
    use super::*;

    // AN818 Rev 20, hexagon C; across corners calculated apart from this program.
    #[test]
    fn a_nut_of_dash_6_is_eleven_sixteenths_across_flats() {
        let flats = nut_flats_mm(6).unwrap();
        assert!((flats - 17.45).abs() < 0.005 && (across_corners_mm(flats) - 20.15).abs() < 0.005);
        assert!((across_corners_mm(nut_flats_mm(16).unwrap()) - 43.99).abs() < 0.01);
        assert_eq!(nut_flats_mm(7), None);
    }

    #[test]
    fn a_spanner_is_larger_than_its_nut() {
        for (dash, _) in FLATS_INCH {
            let flats = nut_flats_mm(dash).unwrap();
            assert!(spanner_radius_mm(flats) > across_corners_mm(flats) / 2.0);
        }
    }
}
