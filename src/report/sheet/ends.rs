//! Both ends of a hose: fitting, set-back, thread, torque.

use crate::engine::{EndSolution, end_kind, hose_kind};
use crate::model::catalogue::{self, threads, torque};
use crate::model::{Attachment, Bay, Run, Side, name_or};
use crate::units::{Angle, LengthUnit};

use super::words::{dash_text, port_name};
use super::{EndSheet, Fact, Shown};

pub(super) fn end(
    bay: &Bay,
    run: &Run,
    side: Side,
    solution: &EndSolution,
    unit: LengthUnit,
) -> EndSheet {
    let end = run.end(side);
    let kind = end.end.as_deref().and_then(|id| end_kind(bay, id));
    let dimensions = &solution.end;
    let name = match (kind, &end.end) {
        (Some(kind), _) => name_or(&kind.name, &kind.id),
        (None, Some(id)) => id,
        (None, None) => "not named",
    };
    EndSheet {
        letter: side.letter(),
        port: port_name(bay, &end.port),
        fitting: name.to_owned(),
        angle_deg: dimensions.angle_deg,
        angle: if dimensions.is_elbow() {
            format!("{} elbow", Angle::from_deg(dimensions.angle_deg).show())
        } else {
            "straight".to_owned()
        },
        attachment: hose_kind(bay, &run.hose)
            .map_or("", |hose| Attachment::of(kind, &hose.construction).word()),
        set_back: Shown::nearest(solution.set_back_mm, unit),
        set_back_source: solution.end.set_back_source().to_string(),
        is_set_back_sure: !solution.end.is_doubtful(solution.end.set_back_source()),
        socket: Shown::nearest(dimensions.socket_mm, unit),
        socket_source: dimensions.socket_source.to_string(),
        thread: thread(run.dash),
    }
}

/// What the nut is where it is a 37° flare; the bay does not say which flare an end has.
fn thread(dash: u32) -> String {
    catalogue::thread(dash).map_or_else(
        || format!("no 37° flare of {} in the table; measure it", dash_text(dash)),
        |thread| format!("{thread} if 37° flare"),
    )
}

/// The nut's torque by every table that lists it.
pub(super) fn torques(dash: u32, unit: LengthUnit) -> Vec<Fact> {
    let Some(torque) = catalogue::torque(dash) else { return Vec::new() };
    let mut lines = vec![
        Fact::new("steel", torque.steel.show(unit), "")
            .from(torque::SOURCE_BY_MATERIAL.to_string()),
        Fact::new("aluminium", torque.aluminium.show(unit), "")
            .from(torque::SOURCE_BY_MATERIAL.to_string()),
    ];
    lines.extend(torque.hose_nut.map(|range| {
        Fact::new("hose nut", range.show(unit), "").from(torque::SOURCE_HOSE_NUT.to_string())
    }));
    lines
}

/// Where threads and torque come from, and what to beware of; for the foot of the table.
pub(super) fn thread_note() -> String {
    format!("Threads: {}. {}.", threads::SOURCE, threads::CAUTION)
}
