//! What rides with the pointer while something is held: where it is, what was typed, and what that
//! does to the hoses.

use glam::DVec3;

use crate::app::canvas::thing::Thing;
use crate::app::tools::drag::{Drag, Held, measure_lines};
use crate::app::words;
use crate::app::work::Work;
use crate::engine::RunSolution;
use crate::model::Run;
use crate::units::{Length, LengthUnit};

/// Hoses named beside the pointer at most; a group's worth of them would hide the drawing.
const MOST_RUNS: usize = 4;

impl Work {
    /// The lines beside the pointer.
    pub(in crate::app) fn riding_figures(&self) -> Option<Vec<String>> {
        let document = self.document.as_ref()?;
        let unit = document.bay().show_units;
        if let (None, Some(sketch)) = (&self.drag, &self.sketch) {
            return Some(vec![
                place_line(sketch.towards, unit),
                "click a port to end the hose, Esc to cancel".to_owned(),
            ]);
        }
        let drag = self.drag.as_ref()?;
        let mut lines = match &drag.held {
            Held::Frame { .. } => return None,
            Held::Measure => return Some(measure_lines(drag.from, drag.place, unit)),
            Held::NewHose => vec!["release on the other port".to_owned()],
            Held::NewObstacle(draft) => {
                vec![draft.extent(drag).map_or_else(String::new, |e| extent_line(e, unit))]
            }
            Held::NewPort(port) => vec![place_line(port.at, unit)],
            Held::Things { .. } | Held::NewCorner { .. } => vec![place_line(drag.place, unit)],
        };
        lines.extend(drag.third.clone());
        lines.extend(typed_line(drag, unit));
        lines.extend(self.run_lines(drag, unit));
        Some(lines)
    }

    fn run_lines(&self, drag: &Drag, unit: LengthUnit) -> Vec<String> {
        let moving = drag.moving();
        let moves = |run: &Run| moving.iter().any(|thing| moves_with(thing, run));
        let runs = self.solved_runs().filter(|(run, _)| moves(run)).take(MOST_RUNS);
        runs.map(|(run, solved)| run_line(run, solved, unit)).collect()
    }
}

/// Whether a run changes when the thing moves.
fn moves_with(thing: &Thing, run: &Run) -> bool {
    match thing {
        Thing::Port(port) => run.from.port == *port || run.to.port == *port,
        Thing::Hose(id) | Thing::Via { run: id, .. } => run.id == *id,
        Thing::Obstacle(_) | Thing::MovingGroup(_) => false,
    }
}

fn number(mm: f64, unit: LengthUnit) -> String {
    Length::from_mm(mm).number(unit)
}

fn place_line(place: DVec3, unit: LengthUnit) -> String {
    let [x, y, z] = place.to_array().map(|mm| number(mm, unit));
    format!("X {x}   Y {y}   Z {z}  {}", unit.sign())
}

fn extent_line(extent: DVec3, unit: LengthUnit) -> String {
    let [x, y, z] = extent.to_array().map(|mm| number(mm, unit));
    format!("{x} \u{d7} {y} \u{d7} {z}  {}", unit.sign())
}

fn typed_line(drag: &Drag, unit: LengthUnit) -> Option<String> {
    if drag.typed.is_empty() {
        return None;
    }
    if let Some(trouble) = drag.typed.trouble(unit) {
        return Some(trouble);
    }
    let axes = drag.view.axes().map(|axis| ["X", "Y", "Z"][axis]);
    let part = |i: usize| {
        let (text, typing) = drag.typed.of(i);
        let cursor = if typing { "_" } else { "" };
        (!text.is_empty() || typing).then(|| format!("{} = {text}{cursor}", axes[i]))
    };
    let parts: Vec<String> = [0, 1].into_iter().filter_map(part).collect();
    Some(format!("{}   (Tab: the other, Enter: done)", parts.join("   ")))
}

fn run_line(run: &Run, solved: &RunSolution, unit: LengthUnit) -> String {
    let cut = Length::from_mm(solved.cut_length_mm).bench(unit);
    let name = words::run_name(run);
    match solved.min_radius_mm {
        Some(radius) => format!(
            "{name}: cut {cut}, tightest bend {}, minimum {}",
            number(radius, unit),
            Length::from_mm(solved.radius_limit_mm).show(unit)
        ),
        None => format!("{name}: cut {cut}, straight"),
    }
}
