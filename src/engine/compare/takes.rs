//! What a routing takes: hose, ends, and what of it costs and weighs how much.

use crate::engine::cutting::{Amount, CutList, Group, Line, Proof, ShoppingList};
use crate::engine::{RoutingSolution, RunSolution, end_kind, hose_kind};
use crate::model::{Bay, Routing, Run, Side, name_or};

use super::Sum;
use crate::units::{Length, LengthUnit};

/// Hose of one kind and size.
#[derive(Debug, Clone, PartialEq)]
pub struct HoseUse {
    /// Word of its construction; the hose's id where the hose is not known.
    pub construction: String,
    /// Its size.
    pub dash: u32,
    /// Number of pieces.
    pub pieces: usize,
    /// Cut lengths together, each rounded up as it is cut; none where one of them is not known.
    pub length_mm: Option<f64>,
}

/// Ends of one kind, size and angle.
#[derive(Debug, Clone, PartialEq)]
pub struct EndUse {
    /// Name of the kind.
    pub name: String,
    /// Their size.
    pub dash: u32,
    /// Their angle.
    pub angle_deg: f64,
    /// How many.
    pub count: usize,
}

/// Hose by construction and size, in the order in which the runs first need it.
pub(super) fn hoses(bay: &Bay, routing: &Routing, solution: &RoutingSolution) -> Vec<HoseUse> {
    let mut uses: Vec<HoseUse> = Vec::new();
    for (place, run) in routing.runs.iter().enumerate() {
        let construction = construction(bay, run);
        let cut = solution.run(place).map(|run| to_cut_mm(bay, run));
        let alike =
            uses.iter_mut().find(|u| (&u.construction, u.dash) == (&construction, run.dash));
        match alike {
            Some(so_far) => {
                so_far.pieces += 1;
                so_far.length_mm = so_far.length_mm.zip(cut).map(|(a, b)| a + b);
            }
            None => uses.push(HoseUse { construction, dash: run.dash, pieces: 1, length_mm: cut }),
        }
    }
    uses
}

/// What is cut: rounded up to the step of the bench.
pub(super) fn to_cut_mm(bay: &Bay, run: &RunSolution) -> f64 {
    Length::from_mm(run.cut_length_mm).up_to_bench_mm(bay.show_units)
}

pub(super) fn construction(bay: &Bay, run: &Run) -> String {
    hose_kind(bay, &run.hose).map_or(run.hose.as_str(), |hose| hose.construction.word()).to_owned()
}

/// What an end is called; none is named where it is measured.
pub(super) fn end_name(bay: &Bay, run: &Run, side: Side) -> String {
    let Some(id) = run.end(side).end.as_deref() else {
        return "your own end, measured".to_owned();
    };
    end_kind(bay, id).map_or(id, |kind| name_or(&kind.name, id)).to_owned()
}

/// Ends by kind, size and angle: by name, then size, then angle.
pub(super) fn ends(bay: &Bay, routing: &Routing) -> Vec<EndUse> {
    let mut uses: Vec<EndUse> = Vec::new();
    for run in &routing.runs {
        for side in [Side::A, Side::B] {
            let name = end_name(bay, run, side);
            let (dash, angle_deg) = (run.dash, run.end(side).angle_deg);
            let alike =
                |u: &&mut EndUse| (&u.name, u.dash, u.angle_deg) == (&name, dash, angle_deg);
            match uses.iter_mut().find(alike) {
                Some(so_far) => so_far.count += 1,
                None => uses.push(EndUse { name, dash, angle_deg, count: 1 }),
            }
        }
    }
    uses.sort_by(|a, b| {
        let own = (&a.name, a.dash).cmp(&(&b.name, b.dash));
        own.then(a.angle_deg.total_cmp(&b.angle_deg))
    });
    uses
}

/// The hose and the ends that are to be bought, from cut list and shopping list, and whether the
/// cut list is proven the cheapest. Plugs are left out, and clamps where the bay tells of none. What
/// cannot be cut from anything there is, is a part whose price is not known.
pub(super) fn cost(bay: &Bay, routing: &Routing, solution: &RoutingSolution) -> (Sum, bool) {
    let cut_list =
        CutList::new(bay, routing, solution, crate::engine::cutting::Allowances::default());
    let list = ShoppingList::new(bay, routing, solution, &cut_list);
    let mut sum = Sum::default();
    let counts = |group| match group {
        Group::Hose | Group::End => true,
        Group::Clamp => !bay.stock.clamps.is_empty(),
        Group::Plug => false,
    };
    let bought = |line: &&Line| !line.is_on_shelf && counts(line.group);
    for line in list.lines.iter().filter(bought) {
        let (what, (amount, each)) = (what_of(line, bay.show_units), priced(line));
        sum.add(&what, amount, each);
    }
    for kind in &cut_list.kinds {
        for uncut in &kind.uncut {
            let length_mm = kind.pieces.get(uncut.piece).map_or(0.0, |piece| piece.cut_mm);
            sum.add(&format!("{}, not available", sized(&kind.name, kind.dash)), length_mm, None);
        }
    }
    for run in &cut_list.left_out {
        sum.add(&format!("the hose of {run}, which could not be calculated"), 1.0, None);
    }
    (sum, cut_list.kinds.iter().all(|kind| kind.proof == Proof::Best))
}

/// How much of a line, and what each costs.
fn priced(line: &Line) -> (f64, Option<f64>) {
    match line.amount {
        Amount::Pieces(count) => (f64::from(count), line.unit_price),
        // By the millimetre.
        Amount::Length(mm) => (mm, line.unit_price.map(|per_m| per_m / 1000.0)),
    }
}

fn angled(name: &str, angle_deg: f64) -> String {
    if angle_deg > 0.0 { format!("{name} {angle_deg}\u{b0}") } else { format!("{name} straight") }
}

fn sized(name: &str, dash: u32) -> String {
    format!("{name} \u{2212}{dash}")
}

/// A line in words; lines in the same words are alike.
fn what_of(line: &Line, unit: LengthUnit) -> String {
    let length = |mm: f64| Length::from_mm(mm).show(unit);
    let name = line.dash.map_or_else(|| line.name.clone(), |dash| sized(&line.name, dash));
    if let (Group::Clamp, Some(mm)) = (line.group, line.outside_mm) {
        return format!("{name} for hose of {}", length(mm));
    }
    match (line.angle_deg, line.length_mm) {
        (Some(angle_deg), _) => angled(&name, angle_deg),
        (None, Some(length_mm)) => format!("{name}, lengths of {}", length(length_mm)),
        (None, None) => name,
    }
}

/// Hose and ends, kg: dry, without what the hose carries, clamps and sleeves.
pub(super) fn mass_kg(bay: &Bay, routing: &Routing, solution: &RoutingSolution) -> Sum {
    let mut sum = Sum::default();
    for (place, run) in routing.runs.iter().enumerate() {
        let kind = hose_kind(bay, &run.hose);
        let name = sized(kind.map_or(&run.hose, |kind| name_or(&kind.name, &run.hose)), run.dash);
        match solution.run(place) {
            Some(solved) => {
                let per_m = kind.and_then(|kind| kind.size(run.dash)?.mass_kg_per_m);
                sum.add(&name, solved.cut_length_mm, per_m.map(|per_m| per_m / 1000.0));
            }
            None => sum.add(&format!("the hose of {}, not calculated", run.id), 1.0, None),
        }
        for side in [Side::A, Side::B] {
            let end = run.end(side);
            let mass = end
                .end
                .as_deref()
                .and_then(|id| end_kind(bay, id)?.size(run.dash, end.angle_deg)?.mass_kg);
            let name = sized(&end_name(bay, run, side), run.dash);
            sum.add(&angled(&name, end.angle_deg), 1.0, mass);
        }
    }
    sum
}
