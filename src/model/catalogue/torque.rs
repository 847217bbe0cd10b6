//! Torque of 37° flare nuts. Two public tables disagree: both are shown, never averaged.

use crate::model::{Mark, Source};
use crate::units::LengthUnit;

/// By material of the nut, threads lubricated.
pub const SOURCE_BY_MATERIAL: Source =
    Source::fixed(Mark::Published, "NAVEDTRA 14018, Table 5-9, threads lubricated");
/// Hose nut, material not told.
pub const SOURCE_HOSE_NUT: Source =
    Source::fixed(Mark::Published, "Army TM 55-1730-229-12, hose nut");

/// N·m in a pound-force inch, exact by definition: 0.45359237 kg · 9.80665 m/s² · 0.0254 m.
const NM_PER_LB_IN: f64 = 0.453_592_37 * 9.806_65 * 0.0254;

/// From least to greatest torque.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct TorqueRange {
    /// Least, lb-in as published.
    pub low_lb_in: f64,
    /// Greatest, lb-in as published.
    pub high_lb_in: f64,
}

impl TorqueRange {
    const fn new(low_lb_in: f64, high_lb_in: f64) -> Self {
        Self { low_lb_in, high_lb_in }
    }

    /// Least, N·m.
    pub fn low_nm(self) -> f64 {
        self.low_lb_in * NM_PER_LB_IN
    }

    /// Greatest, N·m.
    fn high_nm(self) -> f64 {
        self.high_lb_in * NM_PER_LB_IN
    }

    /// In the unit beside one of length: `215–245 lb-in`, `24.3–27.7 N·m`.
    pub fn show(self, unit: LengthUnit) -> String {
        match unit {
            LengthUnit::Inch => format!("{}–{} lb-in", self.low_lb_in, self.high_lb_in),
            LengthUnit::Mm => format!("{:.1}–{:.1} N·m", self.low_nm(), self.high_nm()),
        }
    }
}

/// What the public tables say for one dash number.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Torque {
    /// Dash number.
    pub dash: u32,
    /// Steel nut ([`SOURCE_BY_MATERIAL`]).
    pub steel: TorqueRange,
    /// Aluminium nut ([`SOURCE_BY_MATERIAL`]).
    pub aluminium: TorqueRange,
    /// Hose nut of the other table ([`SOURCE_HOSE_NUT`]), where it lists the size.
    pub hose_nut: Option<TorqueRange>,
}

const fn line(dash: u32, steel: [f64; 2], aluminium: [f64; 2], other: Option<[f64; 2]>) -> Torque {
    Torque {
        dash,
        steel: TorqueRange::new(steel[0], steel[1]),
        aluminium: TorqueRange::new(aluminium[0], aluminium[1]),
        hose_nut: match other {
            Some(range) => Some(TorqueRange::new(range[0], range[1])),
            None => None,
        },
    }
}

/// lb-in: steel and aluminium nut by NAVEDTRA 14018, Table 5-9; hose nut by TM 55-1730-229-12.
const TABLE: [Torque; 10] = [
    line(3, [95.0, 105.0], [25.0, 35.0], None),
    line(4, [135.0, 145.0], [50.0, 65.0], Some([100.0, 120.0])),
    line(5, [170.0, 190.0], [70.0, 90.0], None),
    line(6, [215.0, 245.0], [110.0, 130.0], Some([210.0, 250.0])),
    line(8, [430.0, 470.0], [230.0, 260.0], Some([340.0, 420.0])),
    line(10, [620.0, 680.0], [330.0, 360.0], Some([400.0, 480.0])),
    line(12, [855.0, 945.0], [460.0, 500.0], Some([725.0, 850.0])),
    line(16, [1140.0, 1260.0], [640.0, 700.0], Some([900.0, 1150.0])),
    line(20, [1520.0, 1680.0], [800.0, 900.0], None),
    line(24, [1900.0, 2100.0], [800.0, 900.0], None),
];

/// Torque of the 37° flare nut of this dash number; none where no table lists it.
pub fn torque(dash: u32) -> Option<Torque> {
    TABLE.iter().find(|line| line.dash == dash).copied()
}
