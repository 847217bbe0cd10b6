//! Which of several figures is better, in words.

use std::cmp::Ordering;

/// The words for one figure.
#[derive(Debug, Clone, Copy)]
pub(super) struct Words {
    /// The better of two.
    pub(super) better: &'static str,
    /// The best of more.
    pub(super) best: &'static str,
}

/// Where all are alike.
pub(super) const SAME: &str = "the same";

/// Where all are alike, and as they should be.
pub(super) const ENOUGH: &str = "enough";

/// A word for each of `count` figures; `order` says `Less` where the first is better, none where that
/// cannot be told. Nothing is claimed of a figure that cannot be set against every other.
pub(super) fn judge(
    count: usize,
    order: impl Fn(usize, usize) -> Option<Ordering>,
    words: Words,
) -> Vec<&'static str> {
    match standing(count, order) {
        Standing::Alike => vec![SAME; count],
        Standing::NotTold => vec![""; count],
        Standing::Best(best) => {
            let word = if count == 2 { words.better } else { words.best };
            (0..count).map(|place| if best.contains(&place) { word } else { "" }).collect()
        }
    }
}

/// How figures stand to each other.
#[derive(Debug, Clone, PartialEq, Eq)]
pub(super) enum Standing {
    /// None is better than another.
    Alike,
    /// No other is better than these.
    Best(Vec<usize>),
    /// It cannot be told.
    NotTold,
}

pub(super) fn standing(count: usize, order: impl Fn(usize, usize) -> Option<Ordering>) -> Standing {
    let others = |one: usize| (0..count).filter(move |other| *other != one);
    let stands = |one: usize, as_told: &dyn Fn(Ordering) -> bool| {
        others(one).all(|other| order(one, other).is_some_and(as_told))
    };
    if count > 1 && (0..count).all(|one| stands(one, &|told| told == Ordering::Equal)) {
        return Standing::Alike;
    }
    let best: Vec<usize> =
        (0..count).filter(|one| stands(*one, &|told| told != Ordering::Greater)).collect();
    if count < 2 || best.is_empty() { Standing::NotTold } else { Standing::Best(best) }
}

/// Orders figures of which less is better; alike within `tolerance`, none where one is not known.
pub(super) fn less_is_better(a: Option<f64>, b: Option<f64>, tolerance: f64) -> Option<Ordering> {
    let (a, b) = (a?, b?);
    // Two that are endless are alike.
    if a == b || (a - b).abs() <= tolerance {
        return Some(Ordering::Equal);
    }
    Some(a.total_cmp(&b))
}

/// The same where more is better.
pub(super) fn more_is_better(a: Option<f64>, b: Option<f64>, tolerance: f64) -> Option<Ordering> {
    less_is_better(b, a, tolerance)
}

#[cfg(test)]
mod tests {
    use super::*;

    const WORDS: Words = Words { better: "shorter", best: "shortest" };

    fn words(values: &[Option<f64>]) -> Vec<&'static str> {
        judge(values.len(), |a, b| less_is_better(values[a], values[b], 0.5), WORDS)
    }

    #[test]
    fn the_better_of_two_the_best_of_more() {
        assert_eq!(words(&[Some(10.0), Some(12.0)]), ["shorter", ""]);
        assert_eq!(words(&[Some(12.0), Some(10.0)]), ["", "shorter"]);
        assert_eq!(words(&[Some(12.0), Some(10.0), Some(11.0)]), ["", "shortest", ""]);
    }

    #[test]
    fn ties() {
        assert_eq!(words(&[Some(10.0), Some(10.4)]), [SAME, SAME]);
        assert_eq!(words(&[Some(10.0), Some(10.4), Some(12.0)]), ["shortest", "shortest", ""]);
        assert_eq!(words(&[Some(f64::INFINITY), Some(f64::INFINITY)]), [SAME, SAME]);
    }

    #[test]
    fn nothing_is_claimed_of_what_is_not_known() {
        assert_eq!(words(&[Some(10.0), None]), ["", ""]);
        assert_eq!(words(&[Some(10.0), Some(12.0), None]), ["", "", ""]);
        assert_eq!(words(&[None, None]), ["", ""]);
        assert_eq!(words(&[Some(10.0)]), [""]);
    }
}
