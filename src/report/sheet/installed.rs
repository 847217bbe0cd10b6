//! The installed shape of a hose, and what other lengths would do, in words.

use super::Fact;
use super::words::{gap, radius};
use crate::engine::RunSolution;
use crate::engine::clearance::NearObstacle;
use crate::engine::lay::RunLay;
use crate::engine::lengths::{LengthAdvice, LengthRange, NeededSlack, RangeScan, Stop};
use crate::engine::motion::{Positions, RunMotion};
use crate::model::Bay;
use crate::units::{EPS_MM, Length, LengthUnit};

/// What is known of the installed shape of one hose.
pub(super) struct Source<'a> {
    pub(super) lay: &'a RunLay,
    pub(super) motion: Option<(&'a RunMotion, &'a Positions)>,
    pub(super) advice: Option<&'a LengthAdvice>,
}

/// The facts of the sheet.
pub(super) fn facts(
    source: &Source<'_>,
    bay: &Bay,
    solution: &RunSolution,
    unit: LengthUnit,
) -> Vec<Fact> {
    let installed = &source.lay.installed;
    let tightest = if installed.is_whole() {
        radius(installed.min_radius_mm(), solution, unit)
    } else {
        "unknown".to_owned()
    };
    let off = Length::from_mm(installed.bulge.mm).show(unit);
    let mut facts =
        vec![Fact::new("tightest bend", tightest, ""), Fact::new("off the drawn route", off, "")];
    facts.extend(nearest("clearance", bay, source.lay.clearance.shown(), None, unit));
    if let Some((motion, _)) = source.motion.filter(|(motion, _)| motion.rides) {
        facts.extend(moved(bay, solution, motion, unit));
    }
    if let Some(advice) = source.advice {
        facts.push(Fact::new(
            "acceptable cut lengths",
            lengths_in_words(advice, unit),
            recommended_in_words(advice, solution, unit),
        ));
        if let Some(needed) = &advice.needed {
            facts.push(needed_fact(needed));
        }
    }
    facts
}

fn nearest(
    name: &str,
    bay: &Bay,
    near: Option<NearObstacle>,
    position: Option<usize>,
    unit: LengthUnit,
) -> Option<Fact> {
    let near = near?;
    let obstacle = bay.obstacles.get(near.obstacle)?.shown_name();
    let remark = match position {
        Some(position) => format!("{obstacle}, {}", by_number(position)),
        None => obstacle.to_owned(),
    };
    Some(Fact::new(name, gap(near.gap_mm, near.min_clearance_mm, unit), remark))
}

/// A position by its number in the list of them.
fn by_number(position: usize) -> String {
    format!("pos. {}", position + 1)
}

fn moved(bay: &Bay, solution: &RunSolution, motion: &RunMotion, unit: LengthUnit) -> Vec<Fact> {
    let mut facts = Vec::new();
    if let Some((position, place)) = motion.tightest() {
        let tightest = radius(Some(place.radius_mm), solution, unit);
        facts.push(Fact::new("bend in motion", tightest, by_number(position)));
    }
    if let Some((position, near)) = motion.nearest() {
        facts.extend(nearest("clearance in motion", bay, Some(near), Some(position), unit));
    }
    if let Some((position, reach)) = motion.least_reach() {
        let spare = spare_in_words(reach.spare_mm, unit);
        facts.push(Fact::new("hose to spare in motion", spare, by_number(position)));
    }
    facts
}

/// `5/16 in`; `none`; `1/2 in TOO SHORT`: less than the bench can cut and mark is not told (`taut`).
pub fn spare_in_words(spare_mm: f64, unit: LengthUnit) -> String {
    let length = Length::from_mm(spare_mm.abs()).show(unit);
    match spare_mm {
        mm if mm < -unit.bench_step_mm() => format!("{length} TOO SHORT"),
        mm if mm < 0.0 => "none".to_owned(),
        _ => length,
    }
}

/// `with Engine pivoted +3°`
pub fn with_position(positions: &Positions, position: usize) -> String {
    match positions.all.get(position) {
        Some(found) if position > 0 => format!("with {}", found.name),
        _ => "in the position as drawn".to_owned(),
    }
}

/// `31 1/4 to 33 in`: rounded inwards to the bench's step.
pub fn lengths_in_words(advice: &LengthAdvice, unit: LengthUnit) -> String {
    let step = unit.bench_step_mm();
    let number = |mm: f64| Length::from_mm(mm).number(unit);
    let told = advice.ranges.iter().filter_map(|range| {
        let from = (range.from_mm / step - 1e-9).ceil() * step;
        let to = (range.to_mm / step + 1e-9).floor() * step;
        let beyond = if range.is_open_above { " (not calculated beyond)" } else { "" };
        (to >= from).then(|| {
            if to == from {
                format!("{}{beyond}", number(from))
            } else {
                format!("{} to {}{beyond}", number(from), number(to))
            }
        })
    });
    let told: Vec<String> = told.collect();
    if told.is_empty() {
        let RangeScan { from_mm, to_mm } = advice.looked_at;
        if !from_mm.is_finite() {
            return "none as the slack is shared: give it by free length".to_owned();
        }
        return format!("none from {} to {} {}", number(from_mm), number(to_mm), unit.sign());
    }
    // The unit goes with the last figure, before what is said of it.
    let told = told.join(", or ");
    match told.strip_suffix(" (not calculated beyond)") {
        Some(figures) => format!("{figures} {} (not calculated beyond)", unit.sign()),
        None => format!("{told} {}", unit.sign()),
    }
}

/// By how much the bench may miss the length it cuts: the tolerance of a hose of this length, where that is
/// acceptable; else what is left to the ends of the acceptable lengths, rounded down to the bench's step.
pub(super) fn tolerance_in_words(
    advice: Option<&LengthAdvice>,
    cut_mm: f64,
    tolerance_mm: f64,
    unit: LengthUnit,
) -> String {
    let bench_mm = Length::from_mm(cut_mm).up_to_bench_mm(unit);
    let holds =
        |range: &&LengthRange| (range.from_mm - EPS_MM..=range.to_mm + EPS_MM).contains(&bench_mm);
    let range = advice.and_then(|advice| advice.ranges.iter().find(holds));
    let left = |is_open: bool, to_end_mm: f64| {
        if is_open || to_end_mm > tolerance_mm - EPS_MM { tolerance_mm } else { to_end_mm.max(0.0) }
    };
    let (more_mm, less_mm) = range.map_or((tolerance_mm, tolerance_mm), |range| {
        (
            left(range.is_open_above, range.to_mm - bench_mm),
            // No shorter than the drawn centre line, whatever lies below it.
            left(false, bench_mm - range.from_mm),
        )
    });
    if more_mm == tolerance_mm && less_mm == tolerance_mm {
        return format!("\u{b1} {}", Length::from_mm(tolerance_mm).show(unit));
    }
    let step_mm = unit.bench_step_mm();
    let down = |mm: f64| Length::from_mm((mm / step_mm + 1e-9).floor() * step_mm).show(unit);
    format!("+ {}, \u{2212} {}", down(more_mm), down(less_mm))
}

/// What to cut where the length in force does not meet every limit: `recommended 21 1/8 in ± 1/4 in`.
pub(super) fn recommended_in_words(
    advice: &LengthAdvice,
    solution: &RunSolution,
    unit: LengthUnit,
) -> String {
    let show = |mm: f64| Length::from_mm(mm).show(unit);
    if let (None, Some(below)) = (advice.recommended, advice.pulled_in) {
        let by = show(solution.centreline_mm - f64::midpoint(below.from_mm, below.to_mm));
        return format!("a shorter drawn route would do: pull it in by {by}");
    }
    let Some(one) = advice.recommended else { return String::new() };
    let within = show(one.within_mm);
    if !one.is_whole {
        let cut = show(one.cut_mm);
        return format!("too narrow for the usual tolerance: cut {cut} ± {within}");
    }
    if (one.cut_mm - solution.cut_length_mm).abs() < EPS_MM {
        return String::new();
    }
    format!("recommended {} ± {within}", show(one.cut_mm))
}

/// The least slack for every position, and what asks for it where.
fn needed_fact(needed: &NeededSlack) -> Fact {
    let value = needed.pct.map_or_else(
        || "no slack will do".to_owned(),
        |pct| format!("{} %", (pct * 10.0).ceil() / 10.0),
    );
    let by = needed.stop.map(|stop| match stop {
        Stop::Reach => "reach",
        Stop::Radius => "radius",
        Stop::Clearance => "clearance",
        Stop::Unsolved => "shape unknown with less",
    });
    let remark = by.map_or_else(String::new, |by| format!("{by}, {}", by_number(needed.position)));
    Fact::new("slack needed for motion", value, remark)
}

/// The least slack for every position, and why no less will do.
pub fn needed_in_words(
    needed: &NeededSlack,
    positions: Option<&Positions>,
    unit: LengthUnit,
) -> (String, String) {
    let position =
        positions.map_or_else(String::new, |positions| with_position(positions, needed.position));
    let why = match needed.stop {
        None => "it holds in every position without slack".to_owned(),
        Some(stop) => {
            let less = if needed.pct.is_some() { "with less" } else { "with any" };
            let stop = match stop {
                Stop::Reach => "it is pulled tight, shortened by pressure,",
                Stop::Radius => "it bends below its minimum radius",
                Stop::Clearance => "it comes too near an obstacle",
                Stop::Unsolved => "its installed shape is unknown",
            };
            format!("{less} {stop} {position}")
        }
    };
    let value = match (needed.pct, needed.cut_length_mm) {
        (Some(pct), Some(cut)) => {
            let cut = Length::from_mm(cut).show(unit);
            format!("{} %, cut {cut}", (pct * 10.0).ceil() / 10.0)
        }
        _ => "no slack will do".to_owned(),
    };
    (value, why)
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::engine::lengths::{InchEffect, RangeScan};

    fn advice(from_mm: f64, to_mm: f64) -> LengthAdvice {
        let range = LengthRange { from_mm, to_mm, is_open_below: false, is_open_above: false };
        LengthAdvice {
            ranges: vec![range],
            looked_at: RangeScan { from_mm: 0.0, to_mm: 2000.0 },
            recommended: None,
            pulled_in: None,
            inch: InchEffect { less_mm: None, as_cut_mm: None, more_mm: None },
            needed: None,
        }
    }

    #[test]
    fn a_tolerance_ends_where_the_acceptable_lengths_end() {
        let words = |advice: Option<&LengthAdvice>| {
            tolerance_in_words(advice, 649.63, 6.4, LengthUnit::Inch)
        };
        assert_eq!(words(None), "± 1/4 in");
        assert_eq!(words(Some(&advice(600.0, 700.0))), "± 1/4 in");
        // 650.875 mm is cut: 1.5 mm more to the end, of which the bench can use nothing; 3.375 mm less.
        assert_eq!(words(Some(&advice(647.5, 652.375))), "+ 0 in, \u{2212} 1/8 in");
        assert_eq!(words(Some(&advice(600.0, 650.875))), "+ 0 in, \u{2212} 1/4 in");
        let mut from_drawn = advice(650.875, 700.0);
        from_drawn.ranges[0].is_open_below = true;
        assert_eq!(words(Some(&from_drawn)), "+ 1/4 in, \u{2212} 0 in");
        let mm = tolerance_in_words(Some(&advice(600.0, 653.2)), 649.63, 6.4, LengthUnit::Mm);
        assert_eq!(mm, "+ 3 mm, \u{2212} 6 mm");
    }
}
