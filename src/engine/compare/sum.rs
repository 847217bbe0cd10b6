//! Sums of which some parts may not be known, and what can be said of their difference all the same.

use std::cmp::Ordering;

/// A sum of what things cost or weigh.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct Sum {
    /// The sum of what is known.
    pub known: f64,
    /// What is not known, and so not in the sum.
    pub missing: Vec<Part>,
}

/// Something whose price or mass is not known; parts of one name are alike.
#[derive(Debug, Clone, PartialEq)]
pub struct Part {
    /// What it is.
    pub what: String,
    /// How much of it, in any unit that all parts of this name share.
    pub amount: f64,
}

/// What is known of a difference.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Difference {
    /// It is this.
    Exactly(f64),
    /// It is this or more.
    AtLeast(f64),
    /// It is this or less.
    AtMost(f64),
    /// Nothing can be said.
    Unknown,
}

/// Amounts nearer to each other than this are alike: a thousandth of a piece or of a millimetre.
const SAME_AMOUNT: f64 = 1e-3;

impl Sum {
    /// Adds so many of a thing, each of this value.
    pub(super) fn add(&mut self, what: &str, amount: f64, each: Option<f64>) {
        if let Some(each) = each {
            self.known += amount * each;
            return;
        }
        match self.missing.iter_mut().find(|part| part.what == what) {
            Some(part) => part.amount += amount,
            None => self.missing.push(Part { what: what.to_owned(), amount }),
        }
    }

    /// This sum less another. Nothing costs or weighs less than nothing: where only one of the two has
    /// more of what is not known, the difference still has a bound.
    pub fn less(&self, other: &Self) -> Difference {
        let known = self.known - other.known;
        let (mut more, mut fewer) = (false, false);
        let names = self.missing.iter().chain(&other.missing).map(|part| part.what.as_str());
        for what in names {
            let over = self.amount(what) - other.amount(what);
            more |= over > SAME_AMOUNT;
            fewer |= over < -SAME_AMOUNT;
        }
        match (more, fewer) {
            (false, false) => Difference::Exactly(known),
            (true, false) => Difference::AtLeast(known),
            (false, true) => Difference::AtMost(known),
            (true, true) => Difference::Unknown,
        }
    }

    fn amount(&self, what: &str) -> f64 {
        self.missing.iter().find(|part| part.what == what).map_or(0.0, |part| part.amount)
    }
}

impl Difference {
    /// Whether it is below, at or above nothing, to within `tolerance`; none where that is not known.
    pub fn sign(self, tolerance: f64) -> Option<Ordering> {
        let sign = |d: f64| {
            if d.abs() <= tolerance { Ordering::Equal } else { d.total_cmp(&0.0) }
        };
        match self {
            Self::Exactly(d) => Some(sign(d)),
            Self::AtLeast(d) => Some(sign(d)).filter(|sign| *sign == Ordering::Greater),
            Self::AtMost(d) => Some(sign(d)).filter(|sign| *sign == Ordering::Less),
            Self::Unknown => None,
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn sum(known: f64, missing: &[(&str, f64)]) -> Sum {
        let mut sum = Sum { known, missing: Vec::new() };
        for (what, amount) in missing {
            sum.add(what, *amount, None);
        }
        sum
    }

    #[test]
    fn what_both_lack_alike_makes_no_difference() {
        let (a, b) = (sum(40.0, &[("clamp", 3.0)]), sum(31.0, &[("clamp", 3.0)]));
        assert_eq!(a.less(&b), Difference::Exactly(9.0));
        assert_eq!(b.less(&a), Difference::Exactly(-9.0));
    }

    #[test]
    fn what_one_lacks_more_of_leaves_a_bound() {
        let (a, b) = (sum(40.0, &[("clamp", 4.0)]), sum(31.0, &[("clamp", 3.0)]));
        assert_eq!(a.less(&b), Difference::AtLeast(9.0));
        assert_eq!(b.less(&a), Difference::AtMost(-9.0));
        assert_eq!(a.less(&b).sign(0.005), Some(Ordering::Greater));
        // It may be dearer after all.
        let cheap = sum(20.0, &[("clamp", 4.0)]);
        assert_eq!(cheap.less(&b), Difference::AtLeast(-11.0));
        assert_eq!(cheap.less(&b).sign(0.005), None);
        // As dear at least is not as dear.
        assert_eq!(sum(31.0, &[("clamp", 4.0)]).less(&b).sign(0.005), None);
    }

    #[test]
    fn where_each_lacks_something_nothing_can_be_said() {
        let (a, b) = (sum(40.0, &[("clamp", 1.0)]), sum(31.0, &[("end", 1.0)]));
        assert_eq!(a.less(&b), Difference::Unknown);
        assert_eq!(a.less(&b).sign(0.005), None);
    }

    #[test]
    fn parts_of_one_name_are_added() {
        let twice = sum(0.0, &[("clamp", 1.0), ("end", 1.0), ("clamp", 2.0)]);
        assert_eq!(twice.missing.len(), 2);
        assert_eq!(twice.amount("clamp"), 3.0);
    }
}
