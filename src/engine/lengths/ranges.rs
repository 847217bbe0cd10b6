//! Ranges of lengths that meet a limit. What an installed shape keeps does not grow evenly with the length: a
//! hose may hold its radius, lose it, and hold it again, so the lengths are scanned upwards.

use crate::engine::RunSolution;
use crate::engine::installed::InstalledSolver;

/// How closely lengths are looked at.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Care {
    /// Steps of the scan.
    pub steps: u32,
    /// How near the ends of a range are found, mm.
    pub end_mm: f64,
}

impl Care {
    /// For figures that others are checked by.
    pub const FINE: Self = Self { steps: 240, end_mm: 1e-4 };
    /// For the bench, whose step is a millimetre.
    pub const BENCH: Self = Self { steps: 40, end_mm: 0.02 };
    /// The same in every position, within what holds as drawn.
    pub const MOVING: Self = Self { steps: 8, end_mm: 0.02 };
}

/// An inch, mm (by definition).
const INCH_MM: f64 = 25.4;

/// Acceptable cut lengths, ends included.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct LengthRange {
    /// Least.
    pub from_mm: f64,
    /// Greatest.
    pub to_mm: f64,
    /// Whether it goes on below what was looked at.
    pub is_open_below: bool,
    /// Whether it goes on above what was looked at.
    pub is_open_above: bool,
}

/// What lengths to look at.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct RangeScan {
    /// Least.
    pub from_mm: f64,
    /// Greatest.
    pub to_mm: f64,
}

/// The lengths for which `margin` is 0 or more. None of `margin` stands for a length that has no
/// answer: it will not do.
///
/// A range, or a gap in one, that is narrower than a step of the scan is found only where the margin
/// shows it by a hump or a hollow that may reach as far as 0.
pub fn ranges(
    scan: RangeScan,
    care: Care,
    mut margin: impl FnMut(f64) -> Option<f64>,
) -> Vec<LengthRange> {
    if !(scan.to_mm > scan.from_mm && scan.from_mm.is_finite() && scan.to_mm.is_finite()) {
        return Vec::new();
    }
    let mut at = |length: f64| margin(length).filter(|m| !m.is_nan()).unwrap_or(f64::NEG_INFINITY);
    let step = (scan.to_mm - scan.from_mm) / f64::from(care.steps);
    let mut looked: Vec<(f64, f64)> = (0..=care.steps)
        .map(|k| scan.from_mm + step * f64::from(k))
        .map(|length| (length, at(length)))
        .collect();
    add_turns(&mut looked, &mut at);
    gather(&looked, care.end_mm, &mut at)
}

/// Adds the place of a hump below 0, or of a hollow above it, where it passes 0.
fn add_turns(looked: &mut Vec<(f64, f64)>, at: &mut impl FnMut(f64) -> f64) {
    let mut found = Vec::new();
    for three in looked.windows(3) {
        let [a, b, c] = [three[0].1, three[1].1, three[2].1];
        let hump = b < 0.0 && b >= a && b >= c;
        let hollow = b >= 0.0 && b <= a && b <= c;
        if (!hump && !hollow) || !(a.is_finite() && c.is_finite()) {
            continue;
        }
        // What changes so little beside it does not reach 0 in between: where the same place of the
        // hose is nearest at every length, all of it would be looked through.
        if b.abs() > 2.0 * (b - a).abs().max((b - c).abs()) {
            continue;
        }
        let sign = if hump { 1.0 } else { -1.0 };
        let turn = golden(three[0].0, three[2].0, |length| sign * at(length));
        let value = at(turn);
        if (value >= 0.0) != (b >= 0.0) {
            found.push((turn, value));
        }
    }
    looked.extend(found);
    looked.sort_by(|a, b| a.0.total_cmp(&b.0));
}

/// Where `f` is greatest between `a` and `b`, by golden section, to a hundredth of the way.
fn golden(mut a: f64, mut b: f64, mut f: impl FnMut(f64) -> f64) -> f64 {
    let share = (5.0_f64.sqrt() - 1.0) / 2.0;
    let (mut x, mut y) = (b - share * (b - a), a + share * (b - a));
    let (mut fx, mut fy) = (f(x), f(y));
    for _ in 0..10 {
        if fx > fy {
            (b, y, fy) = (y, x, fx);
            x = b - share * (b - a);
            fx = f(x);
        } else {
            (a, x, fx) = (x, y, fy);
            y = a + share * (b - a);
            fy = f(y);
        }
    }
    if fx > fy { x } else { y }
}

fn gather(looked: &[(f64, f64)], end_mm: f64, at: &mut impl FnMut(f64) -> f64) -> Vec<LengthRange> {
    let mut found: Vec<LengthRange> = Vec::new();
    let mut open: Option<LengthRange> = None;
    for (i, (length, margin)) in looked.iter().enumerate() {
        let (holds, before) = (*margin >= 0.0, i.checked_sub(1).map(|k| looked[k]));
        match (&mut open, holds) {
            (None, true) => {
                let from_mm =
                    before.map_or(*length, |out| edge((*length, *margin), out, end_mm, at));
                open = Some(LengthRange {
                    from_mm,
                    to_mm: *length,
                    is_open_below: before.is_none(),
                    is_open_above: false,
                });
            }
            (Some(range), true) => range.to_mm = *length,
            (Some(range), false) => {
                let last = before.unwrap_or((range.to_mm, 0.0));
                range.to_mm = edge(last, (*length, *margin), end_mm, at);
                found.extend(open.take());
            }
            (None, false) => {}
        }
    }
    if let Some(mut range) = open {
        range.is_open_above = true;
        found.push(range);
    }
    found
}

/// The last length, from `inside` (a length and its margin, which will do) towards `outside` (which will
/// not), that will do. False position, kept from creeping by halving the weight of an end that stays
/// (the Illinois rule, M. Dowell and P. Jarratt, 1971, from memory), and by bisection where a side has no margin.
fn edge(
    inside: (f64, f64),
    outside: (f64, f64),
    end_mm: f64,
    at: &mut impl FnMut(f64) -> f64,
) -> f64 {
    let ((mut a, mut fa), (mut b, mut fb)) = (inside, outside);
    let (mut last_inside, mut rounds) = (None, 0);
    while (b - a).abs() > end_mm {
        rounds += 1;
        let share = fa / (fa - fb);
        // Every third step is a bisection: no function is too crooked then.
        let by_secant = share.is_finite() && rounds % 3 != 0;
        let least = (0.4 * end_mm / (b - a).abs()).min(0.5);
        let share = if by_secant { share.clamp(least, 1.0 - least) } else { 0.5 };
        let middle = a + share * (b - a);
        let margin = at(middle);
        let is_inside = margin >= 0.0;
        if is_inside {
            (a, fa) = (middle, margin);
        } else {
            (b, fb) = (middle, margin);
        }
        if last_inside == Some(is_inside) {
            if is_inside { fb /= 2.0 } else { fa /= 2.0 }
        }
        last_inside = Some(is_inside);
    }
    a
}

/// The cut lengths at which the installed shape of `run`, in the position as drawn, bends no tighter than `limit_mm`.
pub fn radius_ranges(
    solver: &mut InstalledSolver,
    run: &RunSolution,
    limit_mm: f64,
    scan: RangeScan,
) -> Vec<LengthRange> {
    ranges(scan, Care::FINE, |length| {
        solver.min_radius_at(run, length).map(|radius| radius - limit_mm)
    })
}

/// What one inch less or more of hose does to the tightest radius; none where the installed shape cannot be
/// solved, infinite where nothing bends.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct InchEffect {
    /// At the run's cut length less an inch.
    pub less_mm: Option<f64>,
    /// At the run's cut length.
    pub as_cut_mm: Option<f64>,
    /// At the run's cut length and an inch.
    pub more_mm: Option<f64>,
}

/// What one inch less or more does to the tightest radius of `run`.
pub fn inch_effect(solver: &mut InstalledSolver, run: &RunSolution) -> InchEffect {
    let mut radius = |more: f64| solver.min_radius_at(run, run.cut_length_mm + more);
    InchEffect { less_mm: radius(-INCH_MM), as_cut_mm: radius(0.0), more_mm: radius(INCH_MM) }
}

#[cfg(test)]
mod tests {
    use super::*;

    const SCAN_10: RangeScan = RangeScan { from_mm: 0.0, to_mm: 10.0 };

    #[test]
    fn it_may_hold_fail_and_hold_again() {
        let found = ranges(SCAN_10, Care::FINE, |x| Some((x - 1.0) * (x - 3.0) * (x - 6.5)));
        assert_eq!(found.len(), 2);
        assert!((found[0].from_mm - 1.0).abs() < 2e-4 && (found[0].to_mm - 3.0).abs() < 2e-4);
        assert!((found[1].from_mm - 6.5).abs() < 2e-4 && found[1].is_open_above);
        assert!(!found[0].is_open_below && !found[0].is_open_above);
    }

    #[test]
    fn a_narrow_range_and_a_narrow_gap_show_by_their_slopes() {
        // 0.01 wide, where the scan goes in steps of 0.042.
        let hump = ranges(SCAN_10, Care::FINE, |x| Some(0.005 - (x - 4.33).abs()));
        assert_eq!(hump.len(), 1);
        assert!((hump[0].to_mm - 4.335).abs() < 2e-4);
        let gap = ranges(SCAN_10, Care::FINE, |x| Some((x - 4.33).abs() - 0.005));
        assert_eq!(gap.len(), 2);
    }

    #[test]
    fn what_has_no_answer_will_not_do() {
        let found = ranges(SCAN_10, Care::FINE, |x| (x > 2.0).then_some(1.0));
        assert!(found.len() == 1 && (found[0].from_mm - 2.0).abs() < 2e-4);
        assert!(ranges(SCAN_10, Care::FINE, |_| Some(f64::NAN)).is_empty());
        assert!(
            ranges(RangeScan { from_mm: 1.0, to_mm: 1.0 }, Care::FINE, |_| Some(1.0)).is_empty()
        );
        assert!(
            ranges(RangeScan { from_mm: 1.0, to_mm: f64::NAN }, Care::FINE, |_| Some(1.0))
                .is_empty()
        );
    }
}
