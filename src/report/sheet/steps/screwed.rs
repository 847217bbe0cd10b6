//! Socket and nipple.

use super::{Job, fine};
use crate::model::Construction;

/// Where two elbows on PTFE hose are stopped to be set (TM 1-1500-204-23-2, fig. 4-50A), in.
const STOP_GAP_IN: f64 = 0.040;
/// Nipple hex to socket on PTFE hose of medium pressure, at least (TM 1-1500-204-23-2, p. 4-64), in.
const PTFE_GAP_IN: f64 = 0.025;
/// Nut to socket on rubber hose (NAVEDTRA 14315), in.
const RUBBER_GAP_IN: [f64; 2] = [0.005, 0.031];
/// Nipple hex to socket on rubber hose, at most (TM 1-1500-204-23-2, p. 4-44), in.
const RUBBER_MOST_IN: f64 = 1.0 / 16.0;

const MARK: &str = "Mark the hose at the socket’s mouth (TM)";

impl Job<'_> {
    pub(super) fn screwed(&self) -> Vec<String> {
        match self.construction {
            Construction::PtfeBraid => self.ptfe(),
            Construction::RubberBraid => self.rubber(),
            Construction::PushOn | Construction::Other(_) => self.other(),
        }
    }

    fn ptfe(&self) -> Vec<String> {
        let gap = format!("not under {} (TM, medium pressure)", self.gap(PTFE_GAP_IN));
        let mut steps = vec![
            "Sockets on, neck first (TM)".to_owned(),
            "Size the liner on the nipple, take it off (TM); deburr, open it round".to_owned(),
            "New ferrule over the liner, under the braid, no wire between, until the liner bottoms; look all round"
                .to_owned(),
            "Mark the hose at the socket’s mouth; lubricate bore, nipple and threads (TM)".to_owned(),
        ];
        let again = "If less: socket off until it turns freely, and again";
        match self.clock {
            None => steps.push(format!(
                "Nipple in until it seats; socket up by hand, then with a smooth-jawed wrench to the \
                 manufacturer’s gap, {gap}. {again}"
            )),
            Some(angle) => {
                let stop = self.gap(STOP_GAP_IN);
                steps.push(format!(
                    "Nipple in until it seats; socket up by hand, then with a smooth-jawed wrench; stop at a \
                     gap of {stop} (TM)"
                ));
                steps.push(format!(
                    "Two elbows: set the clock angle {angle}, finish on both to the manufacturer’s gap, {gap}; never back off (TM)"
                ));
            }
        }
        steps
    }

    fn rubber(&self) -> Vec<String> {
        let [least, most] = RUBBER_GAP_IN.map(|gap| self.gap(gap));
        let at_most = self.gap(RUBBER_MOST_IN);
        let mut steps = vec![
            "Socket in the vice; screw the hose in counter-clockwise until it bottoms, back out as the \
             manufacturer says: a quarter turn (14315)"
                .to_owned(),
            MARK.to_owned(),
            "Lubricate bore, nipple and threads (14315, TM)".to_owned(),
            format!(
                "Nipple in clockwise with a smooth-jawed wrench to the manufacturer’s gap: {least} to {most} (14315), \
                 {at_most} at most (TM)"
            ),
        ];
        steps.extend(self.two_elbows());
        steps
    }

    fn other(&self) -> Vec<String> {
        let mut steps = vec![
            "Socket on as its manufacturer says".to_owned(),
            MARK.to_owned(),
            "Lubricate bore, nipple and threads".to_owned(),
            "Nipple in with a smooth-jawed wrench to the manufacturer’s gap".to_owned(),
        ];
        steps.extend(self.two_elbows());
        steps
    }

    fn two_elbows(&self) -> Option<String> {
        let angle = self.clock?;
        Some(format!(
            "Two elbows: stop at the gap, set the clock angle {angle}, finish on both; never back off \
         (TM)"
        ))
    }

    fn gap(&self, inches: f64) -> String {
        fine(inches * 25.4, self.unit)
    }
}
