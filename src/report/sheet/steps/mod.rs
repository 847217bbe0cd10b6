//! On the bench, in order, by how the ends are attached and how the hose is built.

mod pressed;
mod screwed;

use crate::engine::end_kind;
use crate::model::{
    Attachment, Bay, Construction, EndSize, HoseKind, HoseSize, Run, Side, tolerance,
};
use crate::units::{Length, LengthUnit};

use super::Clock;

/// How far off square a PTFE hose is taken to be cut at the most, degrees; no standard that was read gives
/// an angle.
const OFF_SQUARE_DEG: f64 = 1.0;
/// Sizes from this dash number on may be pushed out by [`PUSH_OUT_IN`] (TM 1-1500-204-23-2, fig. 4-50A).
const PUSH_OUT_FROM_DASH: u32 = 12;
/// See [`PUSH_OUT_FROM_DASH`]; smaller ones not at all.
const PUSH_OUT_IN: f64 = 1.0 / 32.0;

/// A hose to be made.
pub(super) struct Job<'a> {
    name: &'a str,
    dash: u32,
    construction: &'a Construction,
    bore_mm: Option<f64>,
    outside_mm: f64,
    ends: [End<'a>; 2],
    /// The angle between two elbows, in words.
    clock: Option<&'a str>,
    unit: LengthUnit,
    /// What to slide on before the second end closes the hose.
    sleeves: Option<String>,
}

/// One end of it.
struct End<'a> {
    side: Side,
    attachment: Attachment,
    size: Option<&'a EndSize>,
}

impl<'a> Job<'a> {
    pub(super) fn new(
        bay: &'a Bay,
        run: &'a Run,
        (kind, size): (&'a HoseKind, &'a HoseSize),
        outside_mm: f64,
        clock: &'a Clock,
    ) -> Self {
        let end = |side| {
            let of_run = run.end(side);
            let fitting = of_run.end.as_deref().and_then(|id| end_kind(bay, id));
            End {
                side,
                attachment: Attachment::of(fitting, &kind.construction),
                size: fitting.and_then(|fitting| fitting.size(run.dash, of_run.angle_deg)),
            }
        };
        Self {
            name: run.shown_name(),
            dash: run.dash,
            construction: &kind.construction,
            bore_mm: size.bore_mm,
            outside_mm,
            ends: [end(Side::A), end(Side::B)],
            clock: clock.between_deg.map(|_| clock.short.as_str()),
            unit: bay.show_units,
            sleeves: None,
        }
    }

    /// With what is to be slid on before the second end.
    pub(super) fn with(self, sleeves: Option<String>) -> Self {
        Self { sleeves, ..self }
    }

    /// What to do, in order.
    pub(super) fn steps(&self) -> Vec<String> {
        let [a, b] = &self.ends;
        let mut steps = Vec::new();
        if [a, b].iter().any(|end| end.attachment.takes_a_press()) {
            steps.push(pressed::BY_WHOM.to_owned());
        }
        steps.push("Tape the hose at the cut; mark from end A".to_owned());
        steps.push(self.cut());
        steps.push("Blow out every bit of swarf; tape off (TM)".to_owned());
        steps.extend(self.sleeves.clone());
        if a.attachment == b.attachment {
            steps.extend(self.attached(&[a, b]));
        } else {
            for end in [a, b] {
                let letter = end.side.letter();
                steps.extend(
                    self.attached(&[end]).iter().map(|step| format!("End {letter}: {step}")),
                );
            }
        }
        steps.push(self.look());
        let marks = if self.is_marked() { "; then look at the marks again" } else { "" };
        steps.push(format!("Clean again; proof test, leak check{marks}"));
        steps.push(format!("Dry, cap, label: {}", self.name));
        steps
    }

    fn attached(&self, ends: &[&End<'_>]) -> Vec<String> {
        match ends.first().map(|end| end.attachment) {
            None => Vec::new(),
            Some(Attachment::PushOn) => self.pushed(),
            Some(Attachment::ScrewOn) => self.screwed(),
            Some(Attachment::Crimped | Attachment::Swaged) => self.pressed(ends),
        }
    }

    fn pushed(&self) -> Vec<String> {
        let mut steps = vec![
            "Push the hose on to the manufacturer’s stop, with the lubricant he names; no clamp over it"
                .to_owned(),
        ];
        steps.extend(
            self.clock.map(|angle| format!("Two elbows: clock angle {angle} set while pushing on")),
        );
        steps
    }

    /// Rubber has a published tolerance; PTFE has to seat a ferrule.
    fn cut(&self) -> String {
        match self.construction {
            Construction::PtfeBraid => {
                let gap = fine(self.outside_mm * OFF_SQUARE_DEG.to_radians().tan(), self.unit);
                format!(
                    "Cut square, fine saw, wheel or shear: the ferrule seats all round (1° off is a gap of {gap})"
                )
            }
            Construction::RubberBraid => {
                format!("Cut square{}: wheel or shear", self.rubber_tolerance())
            }
            Construction::PushOn => {
                format!("Cut square{}, with a sharp blade", self.rubber_tolerance())
            }
            Construction::Other(_) => "Cut square".to_owned(),
        }
    }

    fn rubber_tolerance(&self) -> String {
        let within = self.bore_mm.and_then(tolerance::square_cut_tolerance_mm);
        within.map_or_else(String::new, |mm| {
            let within = Length::from_mm(mm).show(self.unit);
            format!(", within {within} ({}, rubber hose)", tolerance::SQUARE_CUT.text)
        })
    }

    /// Whether a mark at the socket shows that the hose has moved.
    fn is_marked(&self) -> bool {
        self.ends.iter().any(|end| end.attachment != Attachment::PushOn)
    }

    fn look(&self) -> String {
        let whole = "bore clear, liner whole, nuts turn";
        if !self.is_marked() {
            return format!("Look through it: {whole}");
        }
        if self.ends.iter().all(|end| end.attachment.takes_a_press()) {
            return format!("Look: marks at the ferrules’ ends, no bulge, crack or wire; {whole}");
        }
        // What is published is of PTFE hose; any other one has not moved at all.
        let pushed_out = match self.construction {
            Construction::PtfeBraid if self.dash < PUSH_OUT_FROM_DASH => {
                "no push-out at the marks (TM, high-pressure PTFE)".to_owned()
            }
            Construction::PtfeBraid => {
                let most = fine(PUSH_OUT_IN * 25.4, self.unit);
                format!("push-out at the marks {most} at most (TM, high-pressure PTFE)")
            }
            _ => "no push-out at the marks".to_owned(),
        };
        format!("Look: {pushed_out}; {whole}")
    }
}

/// To what a feeler gauge tells.
fn fine(mm: f64, unit: LengthUnit) -> String {
    Length::from_mm(mm).show_fine(unit)
}
