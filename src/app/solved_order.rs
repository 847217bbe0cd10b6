//! Findings keep their places in the list while something is moved.

use crate::checks::Finding;

/// What makes two findings the same one, from one moment of a drag to the next.
fn is_same(a: &Finding, b: &Finding) -> bool {
    a.rule == b.rule && a.run == b.run && a.other == b.other
}

/// `new` in the order of `old` as far as they are the same; what is new comes last.
pub(super) fn in_order_of(old: &[Finding], mut new: Vec<Finding>) -> Vec<Finding> {
    let mut kept = Vec::with_capacity(new.len());
    for before in old {
        if let Some(at) = new.iter().position(|finding| is_same(before, finding)) {
            kept.push(new.remove(at));
        }
    }
    kept.extend(new);
    kept
}

/// Where the finding `at` of `old` is in `new`.
pub(super) fn place_of(old: &[Finding], at: usize, new: &[Finding]) -> Option<usize> {
    let wanted = old.get(at)?;
    // Of several alike the one in the same place among them: a hose may bend too tightly twice.
    let rank = old[..at].iter().filter(|finding| is_same(wanted, finding)).count();
    new.iter().enumerate().filter(|(_, f)| is_same(wanted, f)).nth(rank).map(|(i, _)| i)
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::checks::{Severity, Unit};

    fn finding(rule: &'static str, run: &str, value: f64) -> Finding {
        Finding {
            rule,
            severity: Severity::Warn,
            run: Some(run.to_owned()),
            other: None,
            at_mm: None,
            point: None,
            value: Some(value),
            limit: None,
            unit: Unit::Mm,
            message: String::new(),
            hint: String::new(),
            source: String::new(),
        }
    }

    #[test]
    fn what_stays_keeps_its_place_and_what_comes_is_last() {
        let old = [finding("taut", "a", 1.0), finding("bend-radius", "b", 2.0)];
        let new = vec![
            finding("bend-radius", "b", 9.0),
            finding("slack-range", "a", 1.0),
            finding("taut", "a", 8.0),
        ];
        let rules: Vec<&str> = in_order_of(&old, new).iter().map(|f| f.rule).collect();
        assert_eq!(rules, ["taut", "bend-radius", "slack-range"]);
    }

    #[test]
    fn the_one_looked_at_is_found_again() {
        let old = [finding("bend-radius", "a", 1.0), finding("bend-radius", "a", 2.0)];
        let new = [
            finding("taut", "a", 0.0),
            finding("bend-radius", "a", 1.5),
            finding("bend-radius", "a", 2.5),
        ];
        assert_eq!(place_of(&old, 1, &new), Some(2));
        assert_eq!(place_of(&old, 0, &new[..1]), None);
    }
}
