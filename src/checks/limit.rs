//! How bad it is to miss a limit: what is only known from memory does not decide by a sixteenth of an inch.

use super::{Finding, Severity};
use crate::model::{Mark, Source};

/// A miss by less than this share of a doubtful limit is a warning.
const DOUBT: f64 = 0.05;

/// How bad it is that `value` misses `limit`: a fault, but a warning where the limit is from memory of a standard
/// or a typical figure and is missed by less than 5 %.
pub fn miss_severity(value: f64, limit: f64, source: &Source) -> Severity {
    let miss = (value - limit).abs();
    if source.mark.is_doubtful() && miss < DOUBT * limit.abs() {
        Severity::Warn
    } else {
        Severity::Fail
    }
}

/// The finding as bad as [`miss_severity`] says; a warning says why it is none worse.
pub(super) fn by_limit(mut finding: Finding, source: &Source) -> Finding {
    let (Some(value), Some(limit)) = (finding.value, finding.limit) else { return finding };
    finding.severity = miss_severity(value, limit, source);
    if finding.severity == Severity::Warn {
        finding.message.push_str("; ");
        finding.message.push_str(why(source.mark));
    }
    finding
}

fn why(mark: Mark) -> &'static str {
    match mark {
        Mark::Typical => "the limit rests on a typical figure: measure your hose",
        _ => "the limit is from memory of the standard: check it against your hose",
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_limit_from_memory_does_not_decide_by_a_sixteenth() {
        let of = |mark, value| miss_severity(value, 100.0, &Source::fixed(mark, ""));
        for mark in [Mark::Memory, Mark::Typical] {
            assert_eq!((of(mark, 95.1), of(mark, 104.9)), (Severity::Warn, Severity::Warn));
            assert_eq!((of(mark, 95.0), of(mark, 105.0)), (Severity::Fail, Severity::Fail));
        }
        for mark in [Mark::Measured, Mark::BayFile, Mark::Published, Mark::Practice] {
            assert_eq!(of(mark, 99.9), Severity::Fail);
        }
        let cold = miss_severity(-56.0, -54.0, &Source::fixed(Mark::Memory, ""));
        assert_eq!(cold, Severity::Warn);
        assert_eq!(miss_severity(-0.1, 0.0, &Source::fixed(Mark::Memory, "")), Severity::Fail);
    }
}
