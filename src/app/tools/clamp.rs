//! Clamps and corners on a hose that is there.

use super::select::place_in_via;
use crate::app::canvas::gesture::{Gesture, Hit};
use crate::app::canvas::thing::Thing;
use crate::app::work::Work;
use crate::document::Command;
use crate::model::{Clamp, Corner, Via};

const ON_A_HOSE: &str = "Click a hose: the clamp goes there";

impl Work {
    pub(super) fn click_clamp(&mut self, gesture: &Gesture) {
        match &gesture.hit {
            Some(Hit::Thing { thing: Thing::Hose(run), along_mm: Some(at_mm) }) => {
                let (run, at_mm) = (run.clone(), *at_mm);
                self.add_clamp(&run, at_mm);
            }
            // A finding stands on its hose: the mark is not in the way.
            Some(Hit::Finding(finding)) => match self.on_hose_of(*finding) {
                Some((run, at_mm)) => self.add_clamp(&run, at_mm),
                None => self.say(ON_A_HOSE),
            },
            _ => self.say(ON_A_HOSE),
        }
    }

    /// Where a finding is on its hose, mm along the drawn centre line.
    fn on_hose_of(&self, finding: usize) -> Option<(String, f64)> {
        let finding = self.solved.as_ref()?.answer.findings.get(finding)?;
        finding.run.clone().zip(finding.at_mm)
    }

    /// A clamp on the hose, the way the hose goes there.
    pub(super) fn add_clamp(&mut self, run: &str, at_mm: f64) {
        self.add_step(run, at_mm, |at, along| Via::Clamp(Clamp { at, along, ..Clamp::default() }));
    }

    /// A corner on the hose, to be moved from there.
    pub(super) fn add_corner(&mut self, run: &str, at_mm: f64) {
        self.add_step(run, at_mm, |at, _| Via::Corner(Corner { at, ..Corner::default() }));
    }

    fn add_step(&mut self, run: &str, at_mm: f64, step: fn(glam::DVec3, glam::DVec3) -> Via) {
        let found = self.ask_run(run, |solved, run| {
            let line = &solved.centre_line;
            let via = step(line.point_at(at_mm), line.direction_at(at_mm));
            (place_in_via(solved, run, at_mm), via)
        });
        let routing = self.routing_in_view();
        if let (Some((at, via)), Some(routing)) = (found, routing) {
            let (routing, run) = (routing.id.clone(), run.to_owned());
            self.apply(&Command::AddVia { routing, run: run.clone(), at, via });
            self.select_thing(Thing::Via { run, via: at });
        }
    }
}
