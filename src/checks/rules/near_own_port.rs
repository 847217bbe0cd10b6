//! `near-own-port`: a hose close to the hot, moving or sharp obstacle that its own port is on.

use super::clearance::{min_clearance_source, sentence};
use crate::checks::context::RunContext;
use crate::checks::words::Shape;
use crate::checks::{Finding, RuleInfo, Severity, Unit};
use crate::engine::clearance::NearOwnPort;
use crate::model::{Mark, Nature, Obstacle, Side, Sleeve, Source};
use crate::units::{EPS_MM, Length};

pub(in crate::checks) const RULE: RuleInfo = RuleInfo {
    id: "near-own-port",
    severity: Severity::Warn,
    title: "Close to the hot, moving or sharp part its port is on",
    what: "A hose has to be near the obstacle that its port is on, but where that is hot, moving \
           or sharp it suffers there all the same. The least clearance from the socket mouth to \
           the first place with the minimum clearance (where there is none, of the whole hose \
           past the socket), against that minimum, and the length of hose within it; as drawn, \
           as installed and in every position: the worst of them, named. A note where the hose \
           wears sleeves rated for it all along that stretch. Fouling the obstacle, and what \
           comes near again farther on, is checked by clearance, installed-clearance and \
           motion-clearance.",
    source: Source::fixed(
        Mark::BayFile,
        "the obstacle's own minimum clearance; where it gives none, the usual one of its nature, marked there",
    ),
};

/// A stretch in one of the shapes that the hose takes.
struct Case<'a> {
    near: &'a NearOwnPort,
    shape: Shape<'a>,
    /// Where it begins and ends on the drawn centre line.
    drawn: (f64, f64),
    at_mm: f64,
    /// How much of it wears no sleeve that is rated for it.
    bare_mm: f64,
}

/// One finding for each end whose port is on such an obstacle.
pub(in crate::checks) fn check(run: &RunContext<'_>) -> Vec<Finding> {
    let cases = cases(run);
    let mut places: Vec<(usize, Side)> = Vec::new();
    for case in &cases {
        let place = (case.near.near.obstacle, case.near.side);
        if !places.contains(&place) {
            places.push(place);
        }
    }
    let of = |(obstacle, side): (usize, Side)| {
        let here = |case: &&Case<'_>| case.near.near.obstacle == obstacle && case.near.side == side;
        let cases: Vec<&Case<'_>> = cases.iter().filter(here).collect();
        worst(run, run.bay.obstacles.get(obstacle)?, &cases)
    };
    places.into_iter().filter_map(of).collect()
}

/// The stretch in every shape; other rules check what fouls.
fn cases<'a>(run: &RunContext<'a>) -> Vec<Case<'a>> {
    let case = |near: &'a NearOwnPort, shape: Shape<'a>, drawn: &dyn Fn(f64) -> f64| {
        let obstacle = run.bay.obstacles.get(near.near.obstacle)?;
        if near.near.gap_mm < -EPS_MM {
            return None;
        }
        let stretch = (drawn(near.from_mm), drawn(near.to_mm));
        Some(Case {
            near,
            shape,
            drawn: stretch,
            at_mm: drawn(near.near.at_mm),
            bare_mm: bare_mm(run, stretch, obstacle.nature),
        })
    };
    let on_bench = |mm: f64| run.solved.drawn_at_mm(mm);
    let mut all: Vec<Option<Case<'a>>> = Vec::new();
    all.extend(run.clearance.own_port.iter().map(|near| case(near, Shape::Drawn, &|mm| mm)));
    if let Some(lay) = run.lay {
        let own = lay.clearance.own_port.iter();
        all.extend(own.map(|near| case(near, Shape::Installed, &on_bench)));
        let other = lay.other_way_own_port.iter();
        all.extend(other.map(|near| case(near, Shape::OtherWay, &on_bench)));
    }
    if let Some((motion, positions)) = run.motion {
        // The position as drawn is the installed shape.
        for (found, position) in motion.positions.iter().zip(&positions.all).skip(1) {
            let shape = Shape::Position(&position.name);
            all.extend(found.own_port.iter().map(|near| case(near, shape, &on_bench)));
        }
    }
    all.into_iter().flatten().collect()
}

/// How much of a stretch of the drawn centre line no sleeve rated for such an obstacle covers; what the sockets
/// grip needs none.
fn bare_mm(run: &RunContext<'_>, (from, to): (f64, f64), nature: Nature) -> f64 {
    let length_mm = run.solved.centreline_mm;
    let from = from.max(run.solved.from.end.socket_mm);
    let to = to.min(length_mm - run.solved.to.end.socket_mm);
    let rated = run.run.sleeves.iter().filter(|sleeve| sleeve.rated_for.contains(&nature));
    let mut covers: Vec<(f64, f64)> = rated.map(|sleeve| sleeve.range_mm(length_mm)).collect();
    covers.sort_by(|a, b| a.0.total_cmp(&b.0));
    let (mut bare, mut reached) = (0.0, from);
    for (begin, end) in covers {
        bare += (begin.min(to) - reached).max(0.0);
        reached = reached.max(end);
    }
    let bare = bare + (to - reached).max(0.0);
    if bare > EPS_MM { bare } else { 0.0 }
}

/// The worst of the shapes; none where there is none.
fn worst(run: &RunContext<'_>, obstacle: &Obstacle, cases: &[&Case<'_>]) -> Option<Finding> {
    let is_bare = |case: &&&Case<'_>| case.bare_mm > 0.0;
    // Of equal shapes the first: what moves with its port is as near in every position.
    let nearer = |a, b| if gap(b) < gap(a) - EPS_MM { b } else { a };
    let bare = cases.iter().filter(is_bare).copied().reduce(nearer);
    let one = bare.or_else(|| cases.iter().copied().reduce(nearer))?;
    let near = &one.near.near;
    let finding = Finding {
        other: Some(obstacle.id.clone()),
        at_mm: Some(one.at_mm),
        point: Some(near.on_axis),
        value: Some(near.gap_mm),
        limit: Some(near.min_clearance_mm),
        unit: Unit::Mm,
        source: min_clearance_source(obstacle).to_string(),
        ..run.finding(&RULE)
    };
    let message = message(run, obstacle, one);
    Some(if one.bare_mm > 0.0 {
        Finding { message, hint: hint(run, obstacle, cases), ..finding }
    } else {
        let sleeves = sleeves_for(run, obstacle.nature);
        Finding {
            severity: Severity::Note,
            message: format!(
                "{message}, under {sleeves} (rated for {} parts)",
                obstacle.nature.word()
            ),
            hint: "Check the sleeve's rating against this part. It does not raise the hose's own \
                   temperature rating (NAVEDTRA 14018)"
                .to_owned(),
            ..finding
        }
    })
}

fn gap(case: &Case<'_>) -> f64 {
    case.near.near.gap_mm
}

fn message(run: &RunContext<'_>, obstacle: &Obstacle, worst: &Case<'_>) -> String {
    let figures = run.figures();
    let near = &worst.near.near;
    let clearance = sentence(run, worst.shape, obstacle, near);
    let length_mm = worst.near.to_mm - worst.near.from_mm;
    let bare = if worst.bare_mm > 0.0 && worst.bare_mm < length_mm - 1.0 {
        format!(", {} of it without a rated sleeve", figures.length(worst.bare_mm))
    } else {
        String::new()
    };
    format!(
        "{clearance}; {} of hose past the socket of end {} below the minimum{bare}",
        figures.length(length_mm),
        worst.near.side.letter(),
    )
}

/// One stretch to cover for all shapes.
fn hint(run: &RunContext<'_>, obstacle: &Obstacle, cases: &[&Case<'_>]) -> String {
    let unit = run.figures().unit;
    let begins = cases.iter().map(|case| case.drawn.0).fold(f64::INFINITY, f64::min);
    let ends = cases.iter().map(|case| case.drawn.1).fold(0.0, f64::max);
    // On the hose as it is cut, where all marks are.
    let (begins, ends) = (run.solved.on_bench_mm(begins), run.solved.on_bench_mm(ends));
    let step = unit.bench_step_mm();
    let ends = ((ends / step - EPS_MM).ceil() * step).min(run.solved.cut_length_mm);
    let show = |mm: f64| Length::from_mm(mm).show(unit);
    format!(
        "Put a sleeve rated for {} parts over the hose from {} to {} from cut end A, or a shield between \
         the two",
        obstacle.nature.word(),
        show((begins / step + EPS_MM).floor() * step),
        show(ends),
    )
}

fn sleeves_for(run: &RunContext<'_>, nature: Nature) -> String {
    let rated = run.run.sleeves.iter().filter(|sleeve| sleeve.rated_for.contains(&nature));
    let names: Vec<&str> = rated.map(Sleeve::shown_name).collect();
    names.join(", ")
}
