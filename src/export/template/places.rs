//! The places of a hose that the bench asks for: a line across each, and what it is called.

use glam::{DVec2, DVec3};

use super::plane::Facing;
use super::{FLAT_WITHIN_MM, NamedPlace};
use crate::drawing::{Item, Shade, Stroke};
use crate::engine::{Bend, EndSolution, RunSolution};
use crate::model::{Bay, Run, Side, name_or};
use crate::units::{Angle, EPS_MM, Length};

/// What is drawn, and the side that it is seen from.
pub(super) struct Hose<'a> {
    pub(super) bay: &'a Bay,
    pub(super) run: &'a Run,
    pub(super) solution: &'a RunSolution,
    pub(super) facing: &'a Facing,
}

/// Longer names of ports are cut off.
const LONGEST_PORT: usize = 32;

/// A mark, and its words; either may be missing.
pub(super) type Marked = (Option<Item>, Option<NamedPlace>);

/// All places, what matters most first.
pub(super) fn places(hose: &Hose<'_>) -> Vec<Marked> {
    let run = hose.solution;
    let length = run.centreline_mm;
    let mut all = vec![hose.cut(0.0, "A, cut end"), hose.cut(length, "B, cut end")];
    let ends = [(Side::A, &run.from), (Side::B, &run.to)];
    all.extend(ends.map(|(side, end)| (None, Some(hose.seat(side, end)))));
    all.extend(hose.sockets());
    all.extend(hose.clamp_names().map(|place| (None, Some(place))));
    all.extend(hose.bend_marks());
    all
}

/// The ends of a line across something that goes along `along`.
fn ends_across(at: DVec2, along: DVec2, reach: f64) -> [DVec2; 2] {
    let across = along.normalize_or(DVec2::X).perp() * reach;
    [at - across, at + across]
}

/// A line across something that goes along `along`.
pub(super) fn across(at: DVec2, along: DVec2, reach: f64, width_mm: f64) -> Item {
    let ends = ends_across(at, along, reach).to_vec();
    Item::line(ends, Stroke::obstacle(Shade::Ink, width_mm))
}

impl Hose<'_> {
    fn show(&self, mm: f64) -> String {
        Length::from_mm(mm).show(self.bay.show_units)
    }

    /// Where on paper, and which way the hose goes there.
    fn on_line(&self, at_mm: f64) -> (DVec2, DVec2) {
        let line = &self.solution.centre_line;
        (self.facing.flat(line.point_at(at_mm)), self.facing.flat(line.direction_at(at_mm)))
    }

    fn cut(&self, at_mm: f64, words: &str) -> Marked {
        let (at, along) = self.on_line(at_mm);
        let reach = self.half_mm() + 6.0;
        let (words, mark) = (words.to_owned(), ends_across(at, along, reach));
        (
            Some(across(at, along, reach, 0.6)),
            Some(NamedPlace { at, gap_mm: reach + 0.8, words, is_strong: true, mark }),
        )
    }

    /// A line across and its words; nothing where that is not on the hose.
    fn mark(&self, at_mm: f64, words: String) -> Marked {
        let (at, along) = self.on_line(at_mm);
        let reach = self.half_mm() + 4.0;
        if !(-EPS_MM..=self.solution.centreline_mm + EPS_MM).contains(&at_mm) {
            return (None, None);
        }
        let mark = ends_across(at, along, reach);
        let place = NamedPlace { at, gap_mm: reach + 0.8, words, is_strong: false, mark };
        (Some(across(at, along, reach, 0.25)), Some(place))
    }

    fn seat(&self, side: Side, end: &EndSolution) -> NamedPlace {
        let port = &self.run.end(side).port;
        let name = self.bay.port(port).map_or(port.as_str(), |known| name_or(&known.name, port));
        let elbow = if end.end.is_elbow() {
            format!("{} elbow, ", Angle::from_deg(end.end.angle_deg).show())
        } else {
            String::new()
        };
        let (letter, set_back) = (side.letter(), self.show(end.set_back_mm));
        let off = self.off_paper(end.frame.seat, end.frame.exit);
        let words = format!("seat {letter}, {}: {elbow}set-back {set_back}{off}", shortened(name));
        let at = self.facing.flat(end.frame.seat);
        NamedPlace { at, gap_mm: self.half_mm() + 3.2, words, is_strong: false, mark: [at; 2] }
    }

    /// How far a seat is off the paper.
    fn off_paper(&self, seat: DVec3, exit: DVec3) -> String {
        let off = self.facing.nearness(seat) - self.facing.nearness(exit);
        if off.abs() <= FLAT_WITHIN_MM {
            return String::new();
        }
        let way = if off > 0.0 { "above" } else { "below" };
        format!("; {} {way} this paper", self.show(off.abs()))
    }

    fn sockets(&self) -> Vec<Marked> {
        let run = self.solution;
        let [a, b] = [&run.from, &run.to].map(|end| end.end.socket_mm);
        let words = |letter: &str, mm: f64| {
            format!("mouth of socket {letter}, {} from cut end {letter}", self.show(mm))
        };
        vec![self.mark(a, words("A", a)), self.mark(run.centreline_mm - b, words("B", b))]
    }

    /// The clamps, each with its mark on the real hose, which has its slack.
    fn clamp_names(&self) -> impl Iterator<Item = NamedPlace> + '_ {
        let run = self.solution;
        let count = run.clamps.len();
        run.clamps.iter().enumerate().map(move |(i, clamp)| {
            let word = if count > 1 { format!("clamp {}", i + 1) } else { "clamp".to_owned() };
            let mark = self.show(run.on_bench_mm(clamp.at_mm));
            let (at, along) = (self.facing.flat(clamp.point), self.facing.flat(clamp.along));
            NamedPlace {
                at,
                mark: ends_across(at, along, self.half_clamp_mm() + 2.0),
                gap_mm: self.half_clamp_mm() + 2.8,
                words: format!("{word}: the hose’s mark at {mark} from A"),
                is_strong: false,
            }
        })
    }

    fn bend_marks(&self) -> Vec<Marked> {
        let bends = self.solution.bends();
        let mut marks = Vec::new();
        for (number, bend) in (1..).zip(bends.iter().filter(|bend| bend.angle_deg >= 0.5)) {
            let half = bend.radius_mm * bend.angle_deg.to_radians() / 2.0;
            let words = format!("bend {number} starts, {}", self.radius(bend));
            marks.push(self.mark(bend.at_mm - half, words));
            marks.push(self.mark(bend.at_mm + half, format!("bend {number} ends")));
        }
        marks
    }

    /// The radius, and what the hose needs where it is too tight.
    fn radius(&self, bend: &Bend) -> String {
        let limit = self.solution.radius_limit_mm;
        if bend.radius_mm < limit - EPS_MM {
            format!("R {}, minimum {}", self.show(bend.radius_mm), self.show(limit))
        } else {
            format!("R {}", self.show(bend.radius_mm))
        }
    }
}

fn shortened(name: &str) -> String {
    let one_line = name.split_whitespace().collect::<Vec<_>>().join(" ");
    if one_line.chars().count() <= LONGEST_PORT {
        return one_line;
    }
    let kept: String = one_line.chars().take(LONGEST_PORT - 1).collect();
    format!("{}…", kept.trim_end())
}
