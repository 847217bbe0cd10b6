//! From a bay to its solution.

use std::collections::HashMap;

use crate::geom::{
    CentreLine, EndFrame, Fillet, Polyline, clock_between_deg, fit_fillets_into, unit_or_x,
};
use crate::model::{Bay, Port, Routing, Run, Side, Via};

use super::leads::{Leads, settle};
use super::resolve::{Missing, ResolvedEnd, ResolvedHose, resolve_end, resolve_hose};
use super::route::{Laying, Route};
use super::solution::{Bend, BendPlace, ClampMark, RoutingSolution, RunSolution, Solution};
use super::{bench, ends};

/// Below this many runs a look through the ports is quicker than an index of them.
const INDEX_FROM_RUNS: usize = 8;

/// Every option of the bay, solved. Time grows linearly with the corners of all runs.
pub fn solve(bay: &Bay) -> Solution {
    Solution { routings: bay.options.iter().map(|option| solve_routing(bay, option)).collect() }
}

/// One option of the bay, solved.
pub fn solve_routing(bay: &Bay, option: &Routing) -> RoutingSolution {
    if option.runs.len() < INDEX_FROM_RUNS {
        return RoutingSolution {
            runs: option.runs.iter().map(|run| solve_run(bay, run)).collect(),
        };
    }
    let ports: HashMap<&str, &Port> = bay.ports.iter().map(|p| (p.id.as_str(), p)).collect();
    let find = |id: &str| ports.get(id).copied();
    let mut desk = Desk::default();
    let runs = option.runs.iter().map(|run| solve_with(&mut desk, bay, run, find)).collect();
    RoutingSolution { runs }
}

/// One run, solved by itself: what a drag needs.
///
/// # Errors
/// [`Missing`] where a reference of the run leads nowhere.
pub fn solve_run(bay: &Bay, run: &Run) -> Result<RunSolution, Missing> {
    solve_with(&mut Desk::default(), bay, run, |id| bay.port(id))
}

/// What is laid out for one run and wiped for the next, so that a large bay does not ask for memory
/// over and over.
#[derive(Default)]
struct Desk {
    route: Route,
    line: Polyline,
    fillets: Vec<Fillet>,
    middles: Vec<f64>,
}

fn solve_with<'a>(
    desk: &mut Desk,
    bay: &'a Bay,
    run: &Run,
    find: impl Fn(&str) -> Option<&'a Port>,
) -> Result<RunSolution, Missing> {
    let hose = resolve_hose(bay, run)?;
    let end = |side: Side| -> Result<(ResolvedEnd, EndFrame), Missing> {
        let end = run.end(side);
        let port = find(&end.port).ok_or_else(|| Missing::Port { side, id: end.port.clone() })?;
        let resolved = resolve_end(bay, run, side)?;
        let frame = ends::end_frame(port, end, &resolved);
        Ok((resolved, frame))
    };
    let (end_a, frame_a) = end(Side::A)?;
    let (end_b, frame_b) = end(Side::B)?;
    Ok(measure(desk, run, hose, (end_a, frame_a), (end_b, frame_b)))
}

fn measure(
    desk: &mut Desk,
    run: &Run,
    hose: ResolvedHose,
    (end_a, frame_a): (ResolvedEnd, EndFrame),
    (end_b, frame_b): (ResolvedEnd, EndFrame),
) -> RunSolution {
    let laying = Laying { run, hose: &hose, from: (&end_a, &frame_a), to: (&end_b, &frame_b) };
    let leads = settle(&laying);
    let Desk { route, line, fillets, middles } = desk;
    route.lay(&laying, &leads);
    route.merge_coincident();
    line.refill(&route.points, |i| route.known[i]);
    fit_fillets_into(fillets, line, &route.wanted, &route.held);
    let centre_line = CentreLine::rounded(line, fillets, middles);

    let centreline_mm = centre_line.length();
    let slack_mm = run.slack_in_force_pct() / 100.0 * centreline_mm;
    let cut_length_mm = centreline_mm + slack_mm;
    let bends = bends(&laying, route, line, fillets, middles);
    let clamps = clamps(&laying, route, &leads, fillets, middles);
    let clock = (end_a.is_elbow() && end_b.is_elbow())
        .then(|| clock_between_deg(line, frame_a.nose, frame_b.nose))
        .flatten();
    let found = |lead: Option<f64>| lead.is_none();
    let from = ends::solved(end_a, frame_a, leads.a, found(run.from.lead_mm));
    let to = ends::solved(end_b, frame_b, leads.b, found(run.to.lead_mm));
    RunSolution {
        spans: bench::free_spans(&from, &to, &clamps, centreline_mm, slack_mm),
        coincident: route.coincident.clone(),
        centreline_mm,
        slack_mm,
        cut_length_mm,
        overall_mm: cut_length_mm + from.set_back_mm + to.set_back_mm,
        min_radius_mm: bends.iter().map(|b| b.radius_mm).reduce(f64::min),
        radius_limit_mm: hose.radius_limit_mm,
        clock_between_deg: clock,
        shortened_mm: cut_length_mm * (1.0 - hose.shortening_pct / 100.0),
        taut_limit_mm: from.mouth.distance(to.mouth) + from.end.socket_mm + to.end.socket_mm,
        bends,
        clamps,
        centre_line,
        hose,
        from,
        to,
    }
}

fn bends(
    laying: &Laying<'_>,
    route: &Route,
    line: &Polyline,
    fillets: &[Fillet],
    middles: &[f64],
) -> Vec<Bend> {
    let last = route.points.len() - 1;
    let mut bends = Vec::with_capacity(last.saturating_sub(1));
    for (i, fillet) in fillets.iter().enumerate() {
        let (Some(place), true) = (route.places[i], fillet.bends()) else { continue };
        // Finite also where the hose turns straight back.
        let wanted_tangent = fillet.wanted * fillet.tan_half.min(1e12);
        let straight_at_wanted = |stretch: usize, socket_mm: f64| {
            route.points[stretch].distance(route.points[stretch + 1]) - wanted_tangent - socket_mm
        };
        bends.push(Bend {
            place,
            point: fillet.middle(
                route.points[i],
                line.stretches[i - 1].direction,
                line.stretches[i].direction,
            ),
            at_mm: middles[i],
            angle_deg: fillet.angle.to_degrees(),
            radius_mm: fillet.radius,
            wanted_mm: fillet.wanted,
            straight_at_wanted_mm: if i == 1 {
                Some(straight_at_wanted(0, laying.from.0.socket_mm))
            } else if i + 1 == last {
                Some(straight_at_wanted(i, laying.to.0.socket_mm))
            } else {
                None
            },
            straight_to_clamp_mm: straight_to_clamp(route, i, fillet),
        });
    }
    bends
}

fn straight_to_clamp(route: &Route, point: usize, fillet: &Fillet) -> Option<f64> {
    let other = match route.places[point]? {
        BendPlace::BeforeClamp(_) => point + 1,
        BendPlace::AfterClamp(_) => point - 1,
        _ => return None,
    };
    Some(route.points[point].distance(route.points[other]) / 2.0 - fillet.tangent)
}

fn clamps(
    laying: &Laying<'_>,
    route: &Route,
    leads: &Leads,
    fillets: &[Fillet],
    middles: &[f64],
) -> Vec<ClampMark> {
    let mut marks = Vec::new();
    for (via, step) in laying.run.via.iter().enumerate() {
        let Via::Clamp(clamp) = step else { continue };
        let after = Some(BendPlace::AfterClamp(via));
        let Some(corner) = route.places.iter().position(|place| *place == after) else { continue };
        let lead_mm = leads.clamp(via);
        // Back from the arc after it; a bend that reaches past the middle leaves it there.
        let start_of_bend = middles[corner] - fillets[corner].radius * fillets[corner].angle / 2.0;
        marks.push(ClampMark {
            via,
            point: clamp.at,
            along: unit_or_x(clamp.along),
            at_mm: start_of_bend - (lead_mm - fillets[corner].tangent).max(0.0),
            half_width_mm: laying.half_width(clamp.half_width_mm),
            lead_mm,
        });
    }
    marks
}
