//! Routings, runs, their ends and what they run through.

use glam::DVec3;

use crate::model::{Clamp, Corner, Fluid, Routing, Run, RunEnd, Service, Via};

use super::bench::read_bench;
use super::cursor::{At, Fields};
use super::kind::{Direction, Flag, Kind, Name, Point, Text, Whole, Words};
use super::quantity::Quantity;
use super::reference::Wanted;
use super::sleeve::read_sleeves;
use super::stock::along;
use super::unique::Unique;

const ROUTINGS: &str = "a list of routings, at least one";

pub(super) fn read_routings(f: &Fields<'_>) -> Vec<Routing> {
    let routings = f.listed("routings", ("a routing", "routings"), None, read_routing);
    if f.get("routings", |at| at.is_empty_list().then(|| at.wrong(ROUTINGS))).is_none() {
        f.missing("routings", ROUTINGS);
    }
    routings
}

fn read_routing(f: &Fields<'_>, seen: &Unique) -> Routing {
    Routing {
        id: f.id(seen),
        name: f.maybe("name", &Text).unwrap_or_default(),
        runs: f.listed("runs", ("a run", "runs"), None, read_run),
        hose_clearance_mm: f.maybe("hose_clearance", &Quantity::LENGTH),
        extra: f.extra(),
    }
}

fn read_run(f: &Fields<'_>, seen: &Unique) -> Run {
    let id = f.id(seen);
    let name = f.maybe("name", &Text).unwrap_or_default();
    let hose = f.must_reference("hose", "the id of a hose", Wanted::Hose);
    let dash = f.must("dash", &Whole::DASH);
    if let (Some(dash), false) = (dash, hose.is_empty()) {
        f.get("dash", |at| at.want(Wanted::HoseSize { hose: hose.clone(), dash }));
    }
    let via =
        f.objects("via", "a list of corners and clamps", "a corner or clamp: an object", read_via);
    let clamps = via.iter().filter(|via| matches!(via, Via::Clamp(_))).count();
    Run {
        id,
        name,
        dash: dash.unwrap_or_default(),
        from: read_run_end(f, "from", (&hose, dash)),
        to: read_run_end(f, "to", (&hose, dash)),
        via,
        radius_mm: f.maybe("radius", &Quantity::LENGTH),
        slack_pct: f.maybe("slack_pct", &Quantity::SLACK),
        slack_mm: read_slack(f, clamps + 1),
        outside_mm: f.maybe("outside", &Quantity::SIZE),
        dry_fit_mm: f.maybe("dry_fit_mm", &Quantity::LENGTH),
        sleeves: read_sleeves(f),
        bench: f.get("bench", read_bench).unwrap_or_default(),
        service: f.get("service", read_service).unwrap_or_default(),
        extra: f.extra(),
        hose,
    }
}

/// Slack by free length: as many figures as there are free lengths.
fn read_slack(f: &Fields<'_>, lengths: usize) -> Option<Vec<f64>> {
    f.get("slack_mm", |at| {
        let expected = format!(
            "the slack of each free length from A to B in mm, here {lengths} (one more than clamps)"
        );
        let items = at.items(&expected)?;
        if items.len() != lengths {
            at.fault(format!("{} of them", items.len()), &expected, None);
            return None;
        }
        items.iter().map(|item| Kind::accept(&Quantity::LENGTH, item)).collect()
    })
    .flatten()
}

fn read_run_end(run: &Fields<'_>, key: &'static str, (hose, dash): (&str, Option<u32>)) -> RunEnd {
    const END: &str = "an end of the run: an object with \"port\"";
    let read = run.get(key, |at| {
        let f = at.fields(END);
        let angle = f.maybe("angle_deg", &Quantity::HALF_TURN);
        let angle_or_none = if f.has("angle_deg") { angle } else { Some(0.0) };
        let end = RunEnd {
            port: f.must_reference("port", "the id of a port", Wanted::Port),
            end: f.reference("end", "the id of an end fitting", Wanted::End),
            angle_deg: angle.unwrap_or_default(),
            clock_deg: f.maybe("clock_deg", &Quantity::DEGREES).unwrap_or_default(),
            straight_mm: f.maybe("straight", &Quantity::LENGTH),
            along_mm: f.maybe("along", &along(angle_or_none)),
            across_mm: f.maybe("across", &Quantity::LENGTH),
            socket_mm: f.maybe("socket", &Quantity::LENGTH),
            extra: f.extra(),
        };
        check_end(&f, &end, hose, dash.zip(angle_or_none));
        end
    });
    if read.is_none() {
        run.missing(key, END);
    }
    read.unwrap_or_default()
}

/// An end has to be named, or measured whole; where it is not measured whole, it has to come in
/// this dash number and angle.
fn check_end(f: &Fields<'_>, end: &RunEnd, hose: &str, size: Option<(u32, f64)>) {
    if ["along", "across", "socket"].iter().all(|key| f.has(key)) {
        return;
    }
    if !f.has("end") {
        f.missing(
            "end",
            "the id of an end fitting, or \"along\", \"across\" and \"socket\" all measured",
        );
    }
    if let (Some(id), Some((dash, angle_deg))) = (&end.end, size) {
        let wanted = Wanted::EndSize { end: id.clone(), hose: hose.to_owned(), dash, angle_deg };
        f.get("end", |at| at.want(wanted));
    }
}

#[derive(Clone, Copy)]
enum ViaKind {
    Corner,
    Clamp,
}

fn read_via(f: &Fields<'_>) -> Via {
    let kinds = Words(&[(ViaKind::Corner, "corner"), (ViaKind::Clamp, "clamp")]);
    let at = |f: &Fields<'_>| -> DVec3 { f.must("at", &Point).unwrap_or_default() };
    match f.must("kind", &kinds) {
        Some(ViaKind::Corner) => Via::Corner(Corner {
            at: at(f),
            radius_mm: f.maybe("radius", &Quantity::LENGTH),
            extra: f.extra(),
        }),
        Some(ViaKind::Clamp) => Via::Clamp(Clamp {
            at: at(f),
            along: f.must("along", &Direction).unwrap_or_default(),
            grip_mm: f.maybe("grip", &Quantity::LENGTH),
            straight_mm: f.maybe("straight", &Quantity::LENGTH),
            extra: f.extra(),
        }),
        None => Via::Corner(Corner::default()),
    }
}

fn read_service(at: &At<'_>) -> Service {
    let f = at.fields("the service: an object");
    Service {
        fluid: f.maybe("fluid", &Name("a fluid")).map(|word| Fluid::from_word(&word)),
        flow_lpm: f.maybe("flow_lpm", &Quantity::LPM),
        pressure_bar: f.maybe("pressure_bar", &Quantity::BAR),
        temperature_c: f.maybe("temperature_c", &Quantity::CELSIUS),
        density_kg_m3: f.maybe("density_kg_m3", &Quantity::KG_PER_M3),
        viscosity_mm2_s: f.maybe("viscosity_mm2_s", &Quantity::MM2_PER_S),
        flexing: f.maybe("flexing", &Flag),
        drains: f.maybe("drains", &Flag),
        extra: f.extra(),
    }
}

impl At<'_> {
    fn is_empty_list(&self) -> bool {
        matches!(&self.node.json, super::Json::List(items) if items.is_empty())
    }
}
