//! The cut length of a hose if one of its points stood elsewhere.

use std::cell::RefCell;

use glam::DVec3;

use crate::app::canvas::thing::Thing;
use crate::engine::Solver;
use crate::model::{Bay, Run, Side};

/// Answers [`super::SnapRequest::cut_length`] by solving the one hose again; the bay is left alone.
pub struct CutLengthTrial {
    /// The bay with the two ports of the hose only.
    bay: RefCell<Bay>,
    run: RefCell<Run>,
    moved: Moved,
    solver: RefCell<Solver>,
}

enum Moved {
    Via(usize),
    Port(String),
}

impl CutLengthTrial {
    /// For a thing that is moved: a corner or a clamp of `run`, or a port it hangs on. None for anything
    /// else.
    pub fn new(bay: &Bay, run: &Run, thing: &Thing) -> Option<Self> {
        let moved = match thing {
            Thing::Via { run: id, via } if *id == run.id && *via < run.via.len() => {
                Moved::Via(*via)
            }
            Thing::Port(id) if run.from.port == *id || run.to.port == *id => {
                Moved::Port(id.clone())
            }
            _ => return None,
        };
        let ids = [Side::A, Side::B].map(|side| &run.end(side).port);
        let ports = bay.ports.iter().filter(|port| ids.contains(&&port.id)).cloned().collect();
        let bay = Bay { ports, stock: bay.stock.clone(), ..Bay::default() };
        Some(Self {
            bay: RefCell::new(bay),
            run: RefCell::new(run.clone()),
            moved,
            solver: RefCell::default(),
        })
    }

    /// The cut length with the thing at `place`, mm, before rounding up; none where the hose cannot be
    /// solved.
    pub fn cut_length(&self, place: DVec3) -> Option<f64> {
        let (mut bay, mut run) = (self.bay.borrow_mut(), self.run.borrow_mut());
        match &self.moved {
            Moved::Via(via) => *run.via.get_mut(*via)?.at_mut() = place,
            Moved::Port(id) => bay.ports.iter_mut().find(|port| port.id == *id)?.at = place,
        }
        let solved = self.solver.borrow_mut().run(&bay, &run).ok()?;
        Some(solved.cut_length_mm)
    }
}
