//! What a cut list costs, worst thing first.

use std::ops::{Add, AddAssign};

/// Money in thousand-millionths of the builder's own unit: a price by the metre, given to four
/// decimals, is then a whole number for each hundredth of a millimetre.
pub(super) const MONEY_STEPS: f64 = 1e9;

/// The dearest price calculated with; far beyond any hose, and far from where whole numbers end.
const DEAREST: f64 = 1e12;

/// What a cut list costs; of two cut lists the lesser is the better, compared from the first field on.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Default, Hash)]
pub struct Cost {
    /// Hose that cannot be had at all, in hundredths of a millimetre.
    pub unplaced: i128,
    /// Hose bought at a price that is not known, in hundredths of a millimetre.
    pub unpriced: i128,
    /// Money, in thousand-millionths of the builder's own unit.
    pub money: i128,
    /// Hose cut into or bought by the metre, in hundredths of a millimetre: what is not needed of it is left.
    pub opened: i128,
    /// Lengths cut into.
    pub bars: i128,
}

impl Cost {
    /// So many times this.
    pub(super) fn times(self, n: i128) -> Self {
        self.each(|part| part * n)
    }

    /// A share of this, each field rounded down: in the order of cut lists never above the true share.
    pub(super) fn share(self, of: i128, whole: i128) -> Self {
        self.each(|part| (part * of).div_euclid(whole))
    }

    /// The fields, worst first.
    pub(super) fn parts(self) -> [i128; 5] {
        [self.unplaced, self.unpriced, self.money, self.opened, self.bars]
    }

    /// From its fields, worst first.
    pub(super) fn from_parts([unplaced, unpriced, money, opened, bars]: [i128; 5]) -> Self {
        Self { unplaced, unpriced, money, opened, bars }
    }

    fn each(self, change: impl Fn(i128) -> i128) -> Self {
        Self {
            unplaced: change(self.unplaced),
            unpriced: change(self.unpriced),
            money: change(self.money),
            opened: change(self.opened),
            bars: change(self.bars),
        }
    }
}

impl Add for Cost {
    type Output = Self;

    fn add(self, other: Self) -> Self {
        Self {
            unplaced: self.unplaced + other.unplaced,
            unpriced: self.unpriced + other.unpriced,
            money: self.money + other.money,
            opened: self.opened + other.opened,
            bars: self.bars + other.bars,
        }
    }
}

impl AddAssign for Cost {
    fn add_assign(&mut self, other: Self) {
        *self = *self + other;
    }
}

/// Money as a whole number of steps.
pub(super) fn money(amount: f64) -> i128 {
    (amount.clamp(0.0, DEAREST) * MONEY_STEPS).round() as i128
}

/// Steps as money.
pub(super) fn amount(steps: i128) -> f64 {
    steps as f64 / MONEY_STEPS
}

/// What one step of length costs where a metre costs `per_m` and `per_metre` steps make a metre.
pub(super) fn money_per_step(per_m: f64, per_metre: i128) -> i128 {
    (per_m.clamp(0.0, DEAREST) * MONEY_STEPS / per_metre as f64).round() as i128
}
