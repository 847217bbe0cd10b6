//! From a run's hose and end fittings to its figures.

use crate::geom::{
    CentreLine, EndFrame, Fillet, Polyline, clock_between_deg, fit_fillets_into, unit_or_x,
};
use crate::model::{Run, Via};

use super::resolve::{ResolvedEnd, ResolvedHose};
use super::route::{Laying, Route, Straights};
use super::solution::{BendPlace, BentCorner, ClampMark, RunSolution};
use super::straights::settle;
use super::{bench, ends};

/// What is laid out for one run and wiped for the next, so that a large bay does not ask for memory
/// over and over.
#[derive(Debug, Clone, Default)]
pub(super) struct Desk {
    route: Route,
    line: Polyline,
    fillets: Vec<Fillet>,
    middles: Vec<f64>,
}

/// The figures of one run.
pub(super) fn measure(
    desk: &mut Desk,
    run: &Run,
    hose: ResolvedHose,
    (end_a, frame_a): (ResolvedEnd, EndFrame),
    (end_b, frame_b): (ResolvedEnd, EndFrame),
) -> RunSolution {
    let laying = Laying { run, hose: &hose, from: (&end_a, &frame_a), to: (&end_b, &frame_b) };
    let Desk { route, line, fillets, middles } = desk;
    let straights = settle(&laying, route);
    route.lay(&laying, &straights);
    route.merge_coincident();
    line.refill(&route.points, |i| route.known[i]);
    fit_fillets_into(fillets, line, &route.wanted, &route.held);
    let centre_line = CentreLine::rounded(line, fillets, middles);

    let centreline_mm = centre_line.length();
    let slack_mm = run.slack_in_force_mm(centreline_mm);
    let cut_length_mm = centreline_mm + slack_mm;
    let clamps = clamps(&laying, route, &straights, fillets, middles);
    let clock = (end_a.is_elbow() && end_b.is_elbow())
        .then(|| clock_between_deg(line, frame_a.nose, frame_b.nose))
        .flatten();
    let found = |straight: Option<f64>| straight.is_none();
    let straight_a = straight_at_wanted(route, fillets, 1, end_a.socket_mm);
    let straight_b = straight_at_wanted(route, fillets, fillets.len() - 2, end_b.socket_mm);
    let from = ends::solved(end_a, frame_a, straights.a, found(run.from.straight_mm), straight_a);
    let to = ends::solved(end_b, frame_b, straights.b, found(run.to.straight_mm), straight_b);
    let free_mm = (cut_length_mm - from.end.socket_mm - to.end.socket_mm).max(0.0);
    let bending = fillets.iter().filter(|fillet| fillet.bends());
    RunSolution {
        spans: bench::free_spans(run, (&from, &to), &clamps, &centre_line, slack_mm),
        coincident: route.coincident.clone(),
        centreline_mm,
        slack_mm,
        cut_length_mm,
        overall_mm: cut_length_mm + from.set_back_mm + to.set_back_mm,
        min_radius_mm: bending.map(|fillet| fillet.radius).reduce(f64::min),
        radius_limit_mm: hose.radius_limit_mm,
        clock_between_deg: clock,
        shortened_mm: cut_length_mm - hose.shortening_pct / 100.0 * free_mm,
        taut_limit_mm: from.mouth.distance(to.mouth) + from.end.socket_mm + to.end.socket_mm,
        corners: bent_corners(route, fillets),
        clamps: clamps.into(),
        centre_line,
        hose,
        from,
        to,
    }
}

fn bent_corners(route: &Route, fillets: &[Fillet]) -> Box<[BentCorner]> {
    let turning = |fillet: &&Fillet| fillet.bends();
    let mut corners = Vec::with_capacity(fillets.iter().filter(turning).count());
    for (place, fillet) in route.places.iter().zip(fillets).filter(|(_, fillet)| fillet.bends()) {
        corners.extend(place.map(|place| BentCorner { place, wanted_mm: fillet.wanted }));
    }
    corners.into()
}

/// Straight hose between a socket's mouth and the corner `point` beside it, were that bent as
/// wanted.
fn straight_at_wanted(
    route: &Route,
    fillets: &[Fillet],
    point: usize,
    socket_mm: f64,
) -> Option<f64> {
    let fillet = fillets.get(point).filter(|fillet| fillet.bends())?;
    let exit = if point == 1 { 0 } else { point + 1 };
    // Finite also where the hose turns straight back.
    let wanted_tangent = fillet.wanted * fillet.tan_half.min(1e12);
    Some(route.points[point].distance(route.points[exit]) - wanted_tangent - socket_mm)
}

fn clamps(
    laying: &Laying<'_>,
    route: &Route,
    straights: &Straights,
    fillets: &[Fillet],
    middles: &[f64],
) -> Vec<ClampMark> {
    let mut marks = Vec::new();
    for (via, step) in laying.run.via.iter().enumerate() {
        let Via::Clamp(clamp) = step else { continue };
        let after = Some(BendPlace::AfterClamp(via as u32));
        let Some(corner) = route.places.iter().position(|place| *place == after) else { continue };
        let straight_mm = straights.clamp(via);
        let half = route.points[corner].distance(route.points[corner - 1]) / 2.0;
        let straight = |i: usize| fillets[i].bends().then(|| half - fillets[i].tangent);
        // Back from the arc after it; a bend that reaches past the middle leaves it there.
        let start_of_bend = middles[corner] - fillets[corner].radius * fillets[corner].angle / 2.0;
        marks.push(ClampMark {
            via,
            point: clamp.at,
            along: unit_or_x(clamp.along),
            at_mm: start_of_bend - (straight_mm - fillets[corner].tangent).max(0.0),
            half_grip_mm: laying.half_grip(clamp.grip_mm),
            straight_mm,
            straight_before_mm: straight(corner - 1),
            straight_after_mm: straight(corner),
        });
    }
    marks
}
