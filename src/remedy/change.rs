//! One change of one hose.

use glam::DVec3;

use crate::engine::RunSolution;
use crate::engine::lengths::with_cut_length;
use crate::model::{Clamp, Corner, Run, RunEnd, Side, Via};
use crate::units::{Angle, Length, LengthUnit};

/// A change that one sentence names and one step makes.
#[derive(Debug, Clone, PartialEq)]
pub enum Change {
    /// Another cut length, shared among the free lengths as before.
    Cut {
        /// The cut length, mm.
        cut_mm: f64,
        /// By so much it may be missed when cutting, more or less, mm.
        within_mm: f64,
    },
    /// Slack by free length, mm.
    Slack(Vec<f64>),
    /// The straight beside an end cleared, so that the engine finds it.
    FreeStraight(Side),
    /// The straight beside a clamp cleared, by its place in `Run::via`.
    FreeClampStraight(usize),
    /// The radius wanted cleared everywhere: the hose's minimum holds.
    FreeRadius,
    /// Another clock angle of an elbow, degrees.
    Clock(Side, f64),
    /// Another angle of an end fitting, of the same kind, degrees.
    Angle(Side, f64),
    /// A corner or a clamp moved.
    Move(usize, DVec3),
    /// A corner or a clamp removed.
    Remove(usize),
    /// A clamp put in, on the drawn route.
    AddClamp {
        /// The place in `Run::via` that it takes.
        place: usize,
        /// Its middle.
        at: DVec3,
        /// The way the hose goes through.
        along: DVec3,
        /// Where that is from cut end A, mm.
        from_a_mm: f64,
    },
    /// A corner put in, off the drawn route.
    AddCorner {
        /// The place in `Run::via` that it takes.
        place: usize,
        /// Where.
        at: DVec3,
        /// How far off the drawn route.
        off: DVec3,
        /// Where that is from cut end A, mm.
        from_a_mm: f64,
    },
    /// Two changes together, in order.
    Both(Box<Self>, Box<Self>),
}

impl Change {
    /// The run with the change made; none where it cannot be.
    pub fn made(&self, run: &Run, solved: &RunSolution) -> Option<Run> {
        if let Self::Cut { cut_mm, .. } = self {
            return with_cut_length(run, solved, *cut_mm);
        }
        if let Self::Both(first, second) = self {
            return second.made(&first.made(run, solved)?, solved);
        }
        let mut run = run.clone();
        match self {
            Self::Cut { .. } | Self::Both(..) => {}
            Self::Slack(each) => run.slack_mm = Some(each.clone()),
            Self::FreeStraight(side) => end_mut(&mut run, *side).straight_mm = None,
            Self::FreeClampStraight(via) => clamp_mut(&mut run, *via)?.straight_mm = None,
            Self::FreeRadius => free_radius(&mut run),
            Self::Clock(side, deg) => end_mut(&mut run, *side).clock_deg = *deg,
            Self::Angle(side, deg) => end_mut(&mut run, *side).angle_deg = *deg,
            Self::Move(via, by) => *run.via.get_mut(*via)?.at_mut() += *by,
            Self::Remove(via) => {
                run.via.get(*via)?;
                run.remove_via(*via);
            }
            Self::AddClamp { place, at, along, .. } => {
                let clamp = Clamp { at: *at, along: *along, ..Clamp::default() };
                run.insert_via(*place, Via::Clamp(clamp));
            }
            Self::AddCorner { place, at, .. } => {
                run.insert_via(*place, Via::Corner(Corner { at: *at, ..Corner::default() }));
            }
        }
        Some(run)
    }

    /// The change in words: `move corner 2 by 1 1/2 in to the left`.
    pub fn words(&self, run: &Run, solved: &RunSolution, unit: LengthUnit) -> String {
        let show = |mm: f64| Length::from_mm(mm).show(unit);
        let angle = |deg: f64| Angle::from_deg(deg).show();
        match self {
            Self::Cut { cut_mm, within_mm } => {
                let pct = 100.0 * (cut_mm / solved.centreline_mm.max(f64::MIN_POSITIVE) - 1.0);
                let (cut, within) = (show(*cut_mm), show(*within_mm));
                format!("cut {cut} instead, ± {within} (slack {:.1} %)", pct.max(0.0))
            }
            Self::Slack(each) => slack_words(each, solved.slack_mm, unit),
            Self::FreeStraight(side) => {
                format!("clear the straight of end {} (it is then calculated)", side.letter())
            }
            Self::FreeClampStraight(via) => {
                format!("clear the straight of {} (it is then calculated)", run.via_name(*via))
            }
            Self::FreeRadius => {
                "clear the bend radius (the hose's minimum is then used)".to_owned()
            }
            Self::Clock(side, deg) => {
                format!("turn end {} to clock angle {}", side.letter(), angle(*deg))
            }
            Self::Angle(side, deg) => {
                format!("fit a {} end fitting at {}", angle(*deg), side.letter())
            }
            Self::Move(via, by) => format!("move {} by {}", run.via_name(*via), way(*by, unit)),
            Self::Remove(via) => format!("remove {}", run.via_name(*via)),
            Self::AddClamp { from_a_mm, .. } => {
                format!("set a clamp {} from cut end A", show(*from_a_mm))
            }
            Self::AddCorner { off, from_a_mm, .. } => {
                let (way, from_a) = (way(*off, unit), show(*from_a_mm));
                format!("add a corner {from_a} from cut end A and move it {way}")
            }
            Self::Both(first, second) => format!(
                "{}, and {}",
                first.words(run, solved, unit),
                second.words(run, solved, unit)
            ),
        }
    }
}

fn end_mut(run: &mut Run, side: Side) -> &mut RunEnd {
    match side {
        Side::A => &mut run.from,
        Side::B => &mut run.to,
    }
}

fn clamp_mut(run: &mut Run, via: usize) -> Option<&mut Clamp> {
    match run.via.get_mut(via)? {
        Via::Clamp(clamp) => Some(clamp),
        Via::Corner(_) => None,
    }
}

fn free_radius(run: &mut Run) {
    run.radius_mm = None;
    for via in &mut run.via {
        if let Via::Corner(corner) = via {
            corner.radius_mm = None;
        }
    }
}

/// Slack by free length: `move the slack: 2 in between clamp 2 and clamp 3, none elsewhere`.
fn slack_words(each: &[f64], slack_mm: f64, unit: LengthUnit) -> String {
    let show = |mm: f64| Length::from_mm(mm).show(unit);
    // As much in all as before, but for what rounding each length up adds.
    let rounding_mm = unit.bench_step_mm() * each.len() as f64;
    let is_moved = (each.iter().sum::<f64>() - slack_mm).abs() <= rounding_mm;
    let verb = if is_moved { "move" } else { "set" };
    let some: Vec<(usize, f64)> =
        each.iter().copied().enumerate().filter(|(_, mm)| *mm > 0.0).collect();
    if some.is_empty() {
        return "set no slack in any free length".to_owned();
    }
    if some.len() > MOST_NAMED {
        let list: Vec<String> = each.iter().map(|mm| show(*mm)).collect();
        return format!("{verb} the slack, by free length from A to B: {}", list.join(", "));
    }
    let held = |clamp: usize| match clamp {
        0 => "end A".to_owned(),
        last if last == each.len() => "end B".to_owned(),
        clamp => format!("clamp {clamp}"),
    };
    let named = some.iter().map(|(place, mm)| {
        format!("{} between {} and {}", show(*mm), held(*place), held(place + 1))
    });
    let named = named.collect::<Vec<_>>().join(", ");
    let rest = if some.len() < each.len() { ", none elsewhere" } else { "" };
    format!("{verb} the slack: {named}{rest}")
}

/// So many free lengths are named by what holds them; more are listed in order.
const MOST_NAMED: usize = 3;

/// A move along the axes in words (ISO 8855: X forward, Y to the left, Z up): `1 in to the left and 2 in up`.
fn way(by: DVec3, unit: LengthUnit) -> String {
    let axes =
        [(by.x, "forward", "back"), (by.y, "to the left", "to the right"), (by.z, "up", "down")];
    let words = axes.into_iter().filter(|(mm, ..)| *mm != 0.0).map(|(mm, more, less)| {
        format!("{} {}", Length::from_mm(mm.abs()).show(unit), if mm > 0.0 { more } else { less })
    });
    words.collect::<Vec<_>>().join(" and ")
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn slack_is_named_by_what_holds_its_free_length() {
        let words = |each: &[f64], slack_mm| slack_words(each, slack_mm, LengthUnit::Mm);
        assert_eq!(
            words(&[0.0, 0.0, 67.0, 0.0], 66.6),
            "move the slack: 67 mm between clamp 2 and clamp 3, none elsewhere"
        );
        assert_eq!(
            words(&[20.0, 5.0], 40.0),
            "set the slack: 20 mm between end A and clamp 1, 5 mm between clamp 1 and end B"
        );
        assert_eq!(
            words(&[9.0, 8.0, 7.0, 0.0, 6.0], 29.0),
            "move the slack, by free length from A to B: 9 mm, 8 mm, 7 mm, 0 mm, 6 mm"
        );
        assert_eq!(words(&[0.0, 0.0], 12.0), "set no slack in any free length");
    }
}
