//! The shopping list of a routing: a finished value that every output is made from.

use crate::engine::{RoutingSolution, end_kind};
use crate::model::{Bay, Routing, Run, Side, Via};

use super::cut_list::{CutList, KindCuts};

/// Plugs for the leak test, for each size of end: one for each end of a hose (common practice).
pub const PLUGS_PER_SIZE: u32 = 2;

/// Everything to have at hand, and what of it is to be bought.
#[derive(Debug, Clone, PartialEq)]
pub struct ShoppingList {
    /// Hose, then ends, clamps, plugs.
    pub lines: Vec<Line>,
    /// What is to be bought, together.
    pub total: Total,
}

/// One kind of thing.
#[derive(Debug, Clone, PartialEq)]
pub struct Line {
    /// What it is.
    pub group: Group,
    /// Id in the stock or the catalogue; empty where it has none.
    pub id: String,
    /// Name in words.
    pub name: String,
    /// Its size, where it has one.
    pub dash: Option<u32>,
    /// Angle of an end.
    pub angle_deg: Option<f64>,
    /// Length of one, of hose that comes in lengths, mm.
    pub length_mm: Option<f64>,
    /// Outside diameter of the hose that a clamp holds, mm; none where that is not known.
    pub outside_mm: Option<f64>,
    /// How much of it.
    pub amount: Amount,
    /// Whether it is there already and paid for.
    pub is_on_shelf: bool,
    /// Price of one, or of a metre; none where it is not known.
    pub unit_price: Option<f64>,
}

/// What a line is about.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum Group {
    /// Hose.
    Hose,
    /// End fittings.
    End,
    /// Clamps.
    Clamp,
    /// Plugs for the leak test.
    Plug,
}

impl Group {
    /// In one word.
    pub fn word(self) -> &'static str {
        match self {
            Self::Hose => "hose",
            Self::End => "end",
            Self::Clamp => "clamp",
            Self::Plug => "plug",
        }
    }
}

/// How much.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Amount {
    /// So many.
    Pieces(u32),
    /// So much hose, mm.
    Length(f64),
}

/// A sum of prices.
#[derive(Debug, Clone, Copy, PartialEq, Default)]
pub struct Total {
    /// What is known.
    pub known: f64,
    /// Lines to buy whose price is not known; they are not in the sum.
    pub unknown_lines: usize,
}

impl Line {
    /// What the line costs; nothing where it is on the shelf, none where that is not known.
    pub fn price(&self) -> Option<f64> {
        if self.is_on_shelf {
            return Some(0.0);
        }
        let unit_price = self.unit_price?;
        Some(match self.amount {
            Amount::Pieces(n) => unit_price * f64::from(n),
            Amount::Length(mm) => unit_price * mm / 1000.0,
        })
    }
}

impl ShoppingList {
    /// The list for a routing, its solution and its cut list.
    pub fn new(
        bay: &Bay,
        routing: &Routing,
        solution: &RoutingSolution,
        cut_list: &CutList,
    ) -> Self {
        let mut lines: Vec<Line> = cut_list.kinds.iter().flat_map(hose).collect();
        lines.extend(ends(bay, routing));
        lines.extend(clamps(bay, routing, solution));
        lines.extend(plugs(routing));
        let mut total = Total::default();
        for line in &lines {
            match line.price() {
                Some(price) => total.known += price,
                None => total.unknown_lines += 1,
            }
        }
        Self { lines, total }
    }
}

fn line(group: Group, amount: Amount) -> Line {
    Line {
        group,
        id: String::new(),
        name: String::new(),
        dash: None,
        angle_deg: None,
        length_mm: None,
        outside_mm: None,
        amount,
        is_on_shelf: false,
        unit_price: None,
    }
}

fn hose(kind: &KindCuts) -> Vec<Line> {
    let of_kind = |line: Line| Line {
        id: kind.hose.clone(),
        name: kind.name.clone(),
        dash: Some(kind.dash),
        ..line
    };
    let mut lines = Vec::new();
    for (place, entry) in kind.stock.iter().enumerate() {
        let used = kind.bars.iter().filter(|bar| bar.stock == place).count() as u32;
        if used > 0 {
            lines.push(of_kind(Line {
                length_mm: Some(entry.length_mm),
                is_on_shelf: !entry.supply.is_bought(),
                unit_price: entry.supply.price(),
                ..line(Group::Hose, Amount::Pieces(used))
            }));
        }
    }
    lines.extend(kind.metres.as_ref().map(|metres| {
        of_kind(Line {
            unit_price: kind.price_per_m,
            ..line(Group::Hose, Amount::Length(metres.length_mm))
        })
    }));
    lines
}

/// Adds one to the line that is the same but for its amount, or begins it.
fn count(lines: &mut Vec<Line>, one: Line) {
    let same = |line: &&mut Line| {
        (&line.id, &line.name, line.dash) == (&one.id, &one.name, one.dash)
            && (line.angle_deg, line.outside_mm) == (one.angle_deg, one.outside_mm)
    };
    match lines.iter_mut().find(same) {
        Some(Line { amount: Amount::Pieces(n), .. }) => *n += 1,
        _ => lines.push(one),
    }
}

fn ends(bay: &Bay, routing: &Routing) -> Vec<Line> {
    let mut lines = Vec::new();
    for run in &routing.runs {
        for side in [Side::A, Side::B] {
            let end = run.end(side);
            let id = end.end.clone().unwrap_or_default();
            let kind = end_kind(bay, &id);
            let name = match kind {
                Some(kind) if !kind.name.is_empty() => kind.name.clone(),
                _ if id.is_empty() => "your own end, measured".to_owned(),
                _ => id.clone(),
            };
            let one = Line {
                id,
                name,
                dash: Some(run.dash),
                angle_deg: Some(end.angle_deg),
                unit_price: end_price(bay, run, side),
                ..line(Group::End, Amount::Pieces(1))
            };
            count(&mut lines, one);
        }
    }
    let key = |line: &Line| (line.name.clone(), line.dash);
    lines.sort_by(|a, b| {
        let angles = a.angle_deg.unwrap_or(0.0).total_cmp(&b.angle_deg.unwrap_or(0.0));
        key(a).cmp(&key(b)).then(angles)
    });
    lines
}

fn clamps(bay: &Bay, routing: &Routing, solution: &RoutingSolution) -> Vec<Line> {
    let mut lines = Vec::new();
    for (i, run) in routing.runs.iter().enumerate() {
        let hose = solution.run(i).map(|run| &run.hose).filter(|hose| hose.outside_is_known);
        // To a tenth of a millimetre: no clamp is made to less.
        let outside_mm = hose.map(|hose| (hose.outside_mm * 10.0).round() / 10.0);
        for _ in run.via.iter().filter(|via| matches!(via, Via::Clamp(_))) {
            let own = hose.and_then(|hose| bay.stock.clamp_for(hose.outside_mm));
            let named = own.map(|clamp| clamp.name.as_str()).filter(|name| !name.is_empty());
            let one = Line {
                name: named.unwrap_or("cushioned clamp").to_owned(),
                outside_mm,
                unit_price: own.and_then(|clamp| clamp.price),
                ..line(Group::Clamp, Amount::Pieces(1))
            };
            count(&mut lines, one);
        }
    }
    let outside = |line: &Line| line.outside_mm.unwrap_or(f64::INFINITY);
    lines.sort_by(|a, b| outside(a).total_cmp(&outside(b)));
    lines
}

fn plugs(routing: &Routing) -> Vec<Line> {
    let mut dashes: Vec<u32> = routing.runs.iter().map(|run| run.dash).collect();
    dashes.sort_unstable();
    dashes.dedup();
    let plug = |dash| Line {
        name: "test plug".to_owned(),
        dash: Some(dash),
        ..line(Group::Plug, Amount::Pieces(PLUGS_PER_SIZE))
    };
    dashes.into_iter().map(plug).collect()
}

/// What one end of a run costs, where the file says.
pub(super) fn end_price(bay: &Bay, run: &Run, side: Side) -> Option<f64> {
    let end = run.end(side);
    end_kind(bay, end.end.as_deref()?)?.size(run.dash, end.angle_deg)?.price
}
