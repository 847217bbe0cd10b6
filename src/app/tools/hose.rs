//! Pulling hoses: from port to port in one drag, or port, corners, port by clicks.

use glam::DVec3;

use crate::app::actions::Tool;
use crate::app::canvas::gesture::{Gesture, Hit};
use crate::app::canvas::snap::Snapped;
use crate::app::canvas::thing::Thing;
use crate::app::tools::Hand;
use crate::app::tools::drag::{Drag, Held, Sketch};
use crate::app::work::Work;
use crate::document::{Command, fresh_id};
use crate::engine::{end_kind, hose_kind};
use crate::model::{
    Bay, BenchRecord, Construction, Corner, Routing, Run, RunEnd, Service, Via, catalogue,
};

fn port_under(gesture: &Gesture) -> Option<String> {
    match gesture.hit.as_ref().and_then(Hit::thing) {
        Some(Thing::Port(port)) => Some(port.clone()),
        _ => None,
    }
}

impl Hand {
    pub(super) fn begin_hose(&mut self, work: &mut Work, gesture: &Gesture) {
        match (port_under(gesture), &work.sketch) {
            (Some(port), None) => self.hose_from(work, &port),
            (None, None) => work.say("A hose starts on a port: press on one"),
            // A press that trembles counts as a click.
            (_, Some(_)) => return self.click_hose(work, gesture),
        }
        if let Some(sketch) = &work.sketch {
            let from = sketch.towards;
            work.hold(Drag::new(Held::NewHose, gesture, from));
        }
    }

    /// Begins a hose on a port.
    pub(super) fn hose_from(&mut self, work: &mut Work, port: &str) {
        let Some(found) = work.bay().and_then(|bay| bay.port(port)) else { return };
        let towards = found.at;
        self.tool = Tool::Hose;
        work.sketch =
            Some(Sketch { port: port.to_owned(), corners: Vec::new(), towards, landed: None });
    }

    /// The button is released with a hose in the hand.
    pub(super) fn drop_hose(&mut self, work: &mut Work, gesture: &Gesture) {
        match (port_under(gesture), &work.sketch) {
            (Some(port), Some(sketch)) if port != sketch.port => self.finish_hose(work, &port),
            // Released on paper: the hose goes on from there by clicks.
            (None, Some(_)) => self.click_hose(work, gesture),
            _ => {}
        }
    }

    pub(super) fn click_hose(&mut self, work: &mut Work, gesture: &Gesture) {
        let Some(sketch) = &work.sketch else {
            match port_under(gesture) {
                Some(port) => self.hose_from(work, &port),
                None => work.say("A hose starts on a port: click one"),
            }
            return;
        };
        match port_under(gesture) {
            Some(port) if port != sketch.port || !sketch.corners.is_empty() => {
                self.finish_hose(work, &port);
            }
            Some(_) => {}
            None => {
                let snapped = work.sketch_place(gesture);
                if let (Some(snapped), Some(sketch)) = (snapped, &mut work.sketch) {
                    sketch.corners.push(snapped.place);
                    sketch.towards = snapped.place;
                    // The next corner has other neighbours.
                    sketch.landed = None;
                }
            }
        }
    }

    fn finish_hose(&mut self, work: &mut Work, port: &str) {
        let (Some(sketch), Some(document)) = (work.sketch.take(), &work.document) else { return };
        let bay = document.bay();
        let Some(routing) = bay.routings.get(work.routing) else { return };
        let run = new_run(bay, routing, &sketch, port);
        let command = Command::AddRun { routing: routing.id.clone(), run: Box::new(run.clone()) };
        work.apply(&command);
        self.tool = Tool::Select;
        work.select_thing(Thing::Hose(run.id));
    }
}

impl Work {
    /// The pointer goes on while a hose is begun.
    pub(super) fn sketch_to(&mut self, gesture: &Gesture) {
        let Some(snapped) = self.sketch_place(gesture) else { return };
        if let Some(sketch) = &mut self.sketch {
            sketch.towards = snapped.place;
            sketch.landed = Some((gesture.view, snapped));
        }
    }

    /// The next place of the sketch: on a port, or what it snaps to, as high as the one before.
    fn sketch_place(&self, gesture: &Gesture) -> Option<Snapped> {
        let (sketch, document) = (self.sketch.as_ref()?, self.document.as_ref()?);
        let bay = document.bay();
        if let Some(port) = port_under(gesture).and_then(|id| bay.port(&id)) {
            return Some(Snapped::free(port.at));
        }
        let before = sketch.corners.last().copied();
        let before = before.or_else(|| bay.port(&sketch.port).map(|port| port.at))?;
        Some(self.next_corner(gesture, sketch, before))
    }
}

/// A hose between two ports, of the kind used last in the routing, as far as it comes in the ports'
/// size.
fn new_run(bay: &Bay, routing: &Routing, sketch: &Sketch, to: &str) -> Run {
    let size = |id: &str| bay.port(id).and_then(|port| port.dash);
    let last = routing.runs.last();
    let dash = size(&sketch.port).or(size(to)).or(last.map(|run| run.dash));
    let (hose, dash) = kind_for(bay, last, dash);
    let end = |port: &str| RunEnd {
        port: port.to_owned(),
        end: end_for(bay, last, &hose, dash),
        ..RunEnd::default()
    };
    let number = routing.runs.len() + 1;
    let corner = |at: &DVec3| Via::Corner(Corner { at: *at, ..Corner::default() });
    Run {
        id: fresh_id(&format!("hose-{number}"), |id| routing.runs.iter().any(|run| run.id == id)),
        name: format!("Hose {number}"),
        from: end(&sketch.port),
        to: end(to),
        via: sketch.corners.iter().map(corner).collect(),
        radius_mm: None,
        slack_pct: None,
        slack_mm: None,
        outside_mm: None,
        conductive_liner: None,
        dry_fit_mm: None,
        sleeves: Vec::new(),
        bench: BenchRecord::default(),
        // What one hose carries is no guess at what the next does.
        service: Service::default(),
        extra: Vec::new(),
        hose,
        dash,
    }
}

/// A hose kind and a size that it comes in: as near to `dash` as there is.
fn kind_for(bay: &Bay, last: Option<&Run>, dash: Option<u32>) -> (String, u32) {
    let own = bay.stock.hoses.iter().map(|hose| hose.id.as_str());
    let built_in = catalogue::hoses().iter().map(|hose| hose.id.as_str());
    let wanted = dash.unwrap_or(6);
    let first = last.map(|run| run.hose.as_str());
    let ids: Vec<&str> = first.into_iter().chain(own).chain(built_in).collect();
    let comes = |id: &&&str| hose_kind(bay, id).is_some_and(|kind| kind.size(wanted).is_some());
    let id = ids.iter().find(comes).or(ids.first()).copied().unwrap_or_default();
    let sizes = hose_kind(bay, id).map(|kind| kind.sizes.as_slice()).unwrap_or_default();
    let nearest = sizes.iter().map(|size| size.dash).min_by_key(|size| size.abs_diff(wanted));
    (id.to_owned(), nearest.unwrap_or(wanted))
}

/// A straight end for the hose: the one used last, else one for its construction.
fn end_for(bay: &Bay, last: Option<&Run>, hose: &str, dash: u32) -> Option<String> {
    let construction = hose_kind(bay, hose).map(|kind| &kind.construction);
    let own = bay.stock.ends.iter();
    let ends: Vec<_> = own.chain(catalogue::ends()).collect();
    let used = last.and_then(|run| run.from.end.as_ref()).and_then(|id| end_kind(bay, id));
    let fits = |kind: &crate::model::EndKind| {
        let for_it = |made_for: &Construction| Some(made_for) == construction;
        kind.for_construction.as_ref().is_none_or(for_it) && kind.size(dash, 0.0).is_some()
    };
    let used = used.filter(|kind| fits(kind));
    used.or_else(|| ends.iter().copied().find(|kind| fits(kind)))
        .or_else(|| ends.iter().copied().find(|kind| kind.size(dash, 0.0).is_some()))
        .map(|kind| kind.id.clone())
}
