//! One end of a hose.

use super::clock_dial::ClockDial;
use super::end_sketch::{self, Dimension, EndShape};
use super::{Scene, from_library, name_or_id};
use eframe::egui::{AsIdSalt, Label, RichText, Ui};
use glam::DVec3;

use crate::app::actions::Action;
use crate::app::theme::{self, size};
use crate::app::widgets::{Field, Form, Range};
use crate::engine::{ResolvedEnd, RunSolution, end_kind, hose_kind};
use crate::geom::is_upright;
use crate::model::{Attachment, Bay, EndKind, Mark, Run, RunEnd, Side, StockEntry, catalogue};
use crate::units::{Angle, Length, LengthUnit, Measure};

const PORT: Field<'_> =
    Field::new("Port", "The port that this end is screwed onto", "Change port of end");
const FITTING: Field<'_> = Field::new(
    "End fitting",
    "The kind of end fitting, from your stock and the catalogue",
    "Change end fitting",
);
const ANGLE: Field<'_> = Field::new(
    "Angle",
    "How far the fitting is bent: the angles it comes in, or any where you measured it",
    "Change angle of end",
);
const CLOCK: Field<'_> = Field::new(
    "Clock angle",
    "Clock angle of the elbow about the port's axis: 0° is up (forward where the port points up or down), counter-clockwise as you look at the port",
    "Turn end",
);
const STRAIGHT: Field<'_> = Field::new(
    "Straight",
    "Straight length from the cut end to the first corner; empty: found for the best bend",
    "Change straight",
);
const ALONG: Field<'_> = Field::new(
    "Along",
    "From the seat to the cut end inside the socket, parallel to the port's axis",
    "Change dimension of end",
);
const ACROSS: Field<'_> = Field::new(
    "Across",
    "From the port's axis to the middle of the cut end, square to the axis; 0 on a straight end",
    "Change dimension of end",
);
const AS_OTHER: Field<'_> = Field::new(
    "Fitting as the other end",
    "Take over fitting, angle and measured dimensions of the other end; port, clock and straight stay",
    "Copy end fitting",
);
/// The method of docs/measuring.md.
const HOW_STRAIGHT: &str = "Assemble the end on a scrap of hose of known length. From the seat to the \
    scrap's free end, less the scrap, is along: to the cut end inside the socket, never to its mouth.";
const HOW_ELBOW: &str = "Assemble the end on a scrap of hose of known length and lay it on paper. Draw the \
    port's axis, the seat and the hose's centre line. From the scrap's free end measure its length back: \
    there is the cut end, inside the socket, never at its mouth.";
const HOW_SOCKET: &str = "Socket: push hose into the bare socket until it bottoms, mark it at the mouth, \
    pull it out. Cut end to mark is the socket.";
const SOCKET: Field<'_> = Field::new(
    "Socket",
    "From the cut end to the socket mouth, along the hose: how much hose is gripped",
    "Change dimension of end",
);

/// The fields of one end, to be folded away.
pub(super) fn section(
    form: &mut Form<'_>,
    scene: &Scene<'_>,
    run: &mut Run,
    side: Side,
    solved: Option<&RunSolution>,
    actions: &mut Vec<Action>,
) {
    let bay = scene.bay;
    let title = format!("End {}", side.letter());
    let end = run.end(side);
    let port = bay.port(&end.port).map_or("", |port| name_or_id(&port.name, &port.id));
    let bend = if end.angle_deg == 0.0 {
        "straight".to_owned()
    } else {
        Angle::from_deg(end.angle_deg).show()
    };
    let summary = format!("{bend}, {port}");
    let (dash, hose) = (run.dash, run.hose.clone());
    let shape = EndShape::of(run, side, solved);
    let other = run.end(other_side(side)).clone();
    let as_other = format!("Fitting as end {}", other_side(side).letter());
    let end = match side {
        Side::A => &mut run.from,
        Side::B => &mut run.to,
    };
    form.section(&title, &summary, false, |form| {
        fields(form, scene, end, dash, side, solved);
        let own = end.end.as_deref().and_then(|id| StockEntry::end(scene.library, id));
        from_library::difference(form, scene, own, actions);
        if !is_same_fitting(end, &other) && form.button(&as_other, &AS_OTHER) {
            let port_side = end.clone();
            *end = RunEnd {
                port: port_side.port,
                clock_deg: port_side.clock_deg,
                straight_mm: port_side.straight_mm,
                extra: port_side.extra,
                ..other.clone()
            };
        }
        measured(form, end, shape, side, solved);
        form.remark(&attachment(bay, &hose, end));
    });
}

fn other_side(side: Side) -> Side {
    match side {
        Side::A => Side::B,
        Side::B => Side::A,
    }
}

fn is_same_fitting(one: &RunEnd, other: &RunEnd) -> bool {
    let fitting =
        |end: &RunEnd| (end.end.clone(), end.angle_deg, end.along_mm, end.across_mm, end.socket_mm);
    fitting(one) == fitting(other)
}

fn fields(
    form: &mut Form<'_>,
    scene: &Scene<'_>,
    end: &mut RunEnd,
    dash: u32,
    side: Side,
    solved: Option<&RunSolution>,
) {
    let solved = solved.map(|solved| match side {
        Side::A => &solved.from,
        Side::B => &solved.to,
    });
    let bay = scene.bay;
    let names = Names::of(side);
    let ports: Vec<(String, String)> = bay
        .ports
        .iter()
        .map(|port| (port.id.clone(), name_or_id(&port.name, &port.id).to_owned()))
        .collect();
    form.choice(&PORT.named(&names.port), &ports, vec![&mut end.port]);
    form.choice(&FITTING.named(&names.fitting), &fittings(scene), vec![&mut end.end]);
    angle(form, scene, end, dash, &names.angle);
    let clock = CLOCK.named(&names.clock);
    form.figure(&clock, Measure::Angle, Range::Any, vec![&mut end.clock_deg]);
    if end.angle_deg != 0.0 {
        dial(form, bay, end, &clock, solved.map(|solved| solved.frame.direction));
    }
    let length = form.length();
    let found = solved.filter(|solved| solved.straight_is_found).map(|solved| solved.straight_mm);
    let found = hint("found:", found, form.units());
    form.maybe(
        &STRAIGHT.named(&names.straight),
        length,
        Range::NotNegative,
        &found,
        vec![&mut end.straight_mm],
    );
}

fn dial(
    form: &mut Form<'_>,
    bay: &Bay,
    end: &mut RunEnd,
    clock: &Field<'_>,
    leaves: Option<DVec3>,
) {
    let Some(port) = bay.port(&end.port) else { return };
    let name = format!("Dial of {}", clock.name());
    let top = if is_upright(port.toward) { "forward" } else { "up" };
    let dial = ClockDial { name: &name, deg: end.clock_deg, top, leaves };
    if let Some(set) = form.whole(|ui| dial.show(ui)) {
        end.clock_deg = set;
        form.changed_by_hand(clock);
    }
}

/// What is measured on the bench, under a sketch of it.
fn measured(
    form: &mut Form<'_>,
    end: &mut RunEnd,
    shape: EndShape,
    side: Side,
    solved: Option<&RunSolution>,
) {
    let resolved = solved.map(|solved| match side {
        Side::A => &solved.from.end,
        Side::B => &solved.to.end,
    });
    let names = Names::of(side);
    let length = form.length();
    let dimensions = [
        (Dimension::Along, ALONG.named(&names.along)),
        (Dimension::Across, ACROSS.named(&names.across)),
        (Dimension::Socket, SOCKET.named(&names.socket)),
    ];
    let lit = dimensions.iter().find(|(_, field)| form.has_focus(field));
    let lit = lit.map(|(dimension, _)| *dimension);
    let is_straight = end.angle_deg == 0.0;
    form.whole(|ui| end_sketch::show(ui, shape, lit));
    form.whole(|ui| how_to_measure(ui, side.letter(), is_straight));
    let backwards = if end.angle_deg > 90.0 { Range::Any } else { Range::NotNegative };
    let listed = |mm: Option<f64>, units| hint("listed:", mm, units);
    let units = form.units();
    let measured = end.is_measured();
    for (field, range, value, from_list) in [
        (ALONG.named(&names.along), backwards, &mut end.along_mm, resolved.map(|r| r.along_mm)),
        (
            ACROSS.named(&names.across),
            Range::NotNegative,
            &mut end.across_mm,
            resolved.map(|r| r.across_mm),
        ),
        (
            SOCKET.named(&names.socket),
            Range::NotNegative,
            &mut end.socket_mm,
            resolved.map(|r| r.socket_mm),
        ),
    ] {
        form.maybe(&field, length, range, &listed(from_list, units), vec![value]);
    }
    if let (Some(resolved), false) = (resolved, measured) {
        form.remark(&sources(resolved));
    }
}

/// One or two lines on how to find the three figures.
pub(in crate::app::panels) fn how_to_measure(ui: &mut Ui, of: impl AsIdSalt, is_straight: bool) {
    let how = if is_straight { HOW_STRAIGHT } else { HOW_ELBOW };
    let how = format!("{how}\n{HOW_SOCKET}");
    let colours = theme::palette(ui);
    let id = ui.scope_id().with(("how to measure", of));
    let mut is_open = ui.data(|data| data.get_temp::<bool>(id)).unwrap_or_default();
    let link = ui.link(RichText::new("How to measure").size(size::SMALL));
    let link = link.on_hover_text(&how);
    if link.clicked() {
        is_open = !is_open;
        ui.data_mut(|data| data.insert_temp(id, is_open));
    }
    if is_open {
        ui.add(Label::new(RichText::new(&how).size(size::SMALL).color(colours.soft)).wrap());
    }
}

/// How the end holds the hose.
fn attachment(bay: &Bay, hose: &str, end: &RunEnd) -> String {
    let kind = end.end.as_deref().and_then(|id| end_kind(bay, id));
    let construction = hose_kind(bay, hose).map(|hose| &hose.construction);
    let attachment = construction.map_or_else(Attachment::default, |of| Attachment::of(kind, of));
    format!("Attachment: {}", attachment.word())
}

/// Where the listed figures come from: "along, across published; socket typical, measure yours".
fn sources(end: &ResolvedEnd) -> String {
    let figures = [
        ("along", &end.along_source),
        ("across", &end.across_source),
        ("socket", &end.socket_source),
    ];
    let mut groups: Vec<(Mark, Vec<&str>)> = Vec::new();
    for (name, source) in figures {
        if source.mark == Mark::Measured {
            continue;
        }
        match groups.iter_mut().find(|(mark, _)| *mark == source.mark) {
            Some((_, names)) => names.push(name),
            None => groups.push((source.mark, vec![name])),
        }
    }
    let said = |(mark, names): &(Mark, Vec<&str>)| format!("{}: {}", names.join(", "), mark.word());
    groups.iter().map(said).collect::<Vec<_>>().join("; ")
}

fn hint(word: &str, mm: Option<f64>, units: LengthUnit) -> String {
    mm.map(|mm| format!("{word} {}", Length::from_mm(mm).show(units))).unwrap_or_default()
}

/// The names of the fields for who does not see in which section they stand.
struct Names {
    port: String,
    fitting: String,
    angle: String,
    clock: String,
    straight: String,
    along: String,
    across: String,
    socket: String,
}

impl Names {
    fn of(side: Side) -> Self {
        let of = |name: &str| format!("{name} of end {}", side.letter());
        Self {
            port: of("Port"),
            fitting: of("Fitting"),
            angle: of("Angle"),
            clock: of("Clock angle"),
            straight: of("Straight"),
            along: of("Along"),
            across: of("Across"),
            socket: of("Socket"),
        }
    }
}

fn fittings(scene: &Scene<'_>) -> Vec<(Option<String>, String)> {
    let bay = scene.bay;
    let built_in = catalogue::ends().iter();
    let built_in = built_in.filter(|kind| bay.stock.ends.iter().all(|own| own.id != kind.id));
    let kind = |kind: &EndKind| (Some(kind.id.clone()), kind.name.clone());
    let none = (None, "none: measured below".to_owned());
    let mut all = from_library::ends(bay, scene.library);
    let listed = std::iter::once(none).chain(bay.stock.ends.iter().chain(built_in).map(kind));
    all.splice(0..0, listed);
    all
}

/// Those the fitting comes in; any, where all of it is measured.
fn angle(form: &mut Form<'_>, scene: &Scene<'_>, end: &mut RunEnd, dash: u32, name: &str) {
    let field = ANGLE.named(name);
    let kind = end.end.as_ref().and_then(|id| from_library::end(scene.bay, scene.library, id));
    let Some(kind) = kind.filter(|_| !end.is_measured()) else {
        form.figure(&field, Measure::Angle, Range::HalfTurn, vec![&mut end.angle_deg]);
        return;
    };
    let sizes = kind.sizes.iter().filter(|size| size.dash == dash);
    let angles: Vec<(f64, String)> = sizes
        .map(|size| {
            let shown = Angle::from_deg(size.angle_deg).show();
            (size.angle_deg, if size.angle_deg == 0.0 { "straight".to_owned() } else { shown })
        })
        .collect();
    form.choice(&field, &angles, vec![&mut end.angle_deg]);
}
