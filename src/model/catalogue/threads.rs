//! Threads of the 37° flare swivel, which are those of the O-ring port of the same size.

use crate::model::{Mark, Source};

/// Where the thread table comes from.
pub const SOURCE: Source =
    Source::fixed(Mark::Published, "SAE J514 / ISO 8434-2; same thread as ISO 11926");

/// What to know before two threads of one size are screwed together.
pub const CAUTION: &str = "45° flare shares some of these threads and must not be mated with 37° (from memory of the \
     standard)";

/// A unified thread, as `9/16-18`.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Thread {
    /// Dash number.
    pub dash: u32,
    /// Nominal diameter in sixteenths of an inch.
    pub diameter_sixteenths: u32,
    /// Threads per inch.
    pub per_inch: u32,
}

impl std::fmt::Display for Thread {
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        let diameter =
            crate::units::Length::from_inches(f64::from(self.diameter_sixteenths) / 16.0);
        let inches = diameter.number(crate::units::LengthUnit::Inch);
        write!(f, "{inches}-{}", self.per_inch)
    }
}

/// Dash; diameter in sixteenths of an inch, threads per inch. SAE J514 / ISO 8434-2.
const TABLE: [(u32, u32, u32); 13] = [
    (2, 5, 24),
    (3, 6, 24),
    (4, 7, 20),
    (5, 8, 20),
    (6, 9, 18),
    (8, 12, 16),
    (10, 14, 14),
    (12, 17, 12),
    (14, 19, 12),
    (16, 21, 12),
    (20, 26, 12),
    (24, 30, 12),
    (32, 40, 12),
];

/// The swivel thread of a 37° flare end of this dash number; none where the standard lists no such
/// size.
pub fn thread(dash: u32) -> Option<Thread> {
    TABLE.iter().find(|(d, _, _)| *d == dash).map(|(dash, diameter_sixteenths, per_inch)| Thread {
        dash: *dash,
        diameter_sixteenths: *diameter_sixteenths,
        per_inch: *per_inch,
    })
}
