//! Routings, runs, their ends, what they run through, and what they wear.

use crate::document::file::read::reference::Wanted;
use crate::model::{Clamp, Corner, Fluid, Nature, Routing, Run, RunEnd, Service, Sleeve, Via};

use super::keys::{Flat, Id, Key, List, Maybe, Must, Or, Part, Refers, Rest, Unless, text};
use super::kind::{As, DIRECTION, Each, Flag, Name, POINT, Whole, Words};
use super::quantity::Quantity;
use super::stock::{along, want_size};
use super::{At, Entries, Fields, Item, Kind, Kinds, Thing, Tree, kinds, of_kind, thing};

const END: &str = "an end of the run: an object with \"port\"";
const FLUID: As<Name, Fluid> = As(Name("a fluid"), Fluid::from_word, Fluid::word);

thing!(Routing {
    id: Id,
    name: text("name"),
    hose_clearance_mm: Maybe("hose_clearance", Quantity::LENGTH),
    runs: List::new("runs", "a run", "runs"),
    extra: Rest,
});

thing!(Run {
    id: Id,
    name: text("name"),
    hose: Refers("hose", "the id of a hose", Wanted::Hose),
    dash: Must("dash", Whole::DASH),
    from: EndOf { key: "from", hose: &hose, dash: &dash },
    to: EndOf { key: "to", hose: &hose, dash: &dash },
    via: List::new("via", "a corner or clamp", "corners and clamps"),
    radius_mm: Maybe("radius", Quantity::LENGTH),
    slack_pct: Maybe("slack_pct", Quantity::SLACK),
    slack_mm: Maybe("slack_mm", SlackOf(&via)),
    outside_mm: Maybe("outside", Quantity::SIZE),
    conductive_liner: Maybe("conductive_liner", Flag),
    dry_fit_mm: Maybe("dry_fit_mm", Quantity::LENGTH),
    sleeves: List::new("sleeves", "a sleeve", "sleeves"),
    bench: Part("bench", "what was done on the bench: an object"),
    service: Part("service", "the service: an object"),
    extra: Rest,
} then |f: &Fields<'_>, run: &Self| want_size(f, &run.hose, run.dash));

thing!(RunEnd {
    port: Refers("port", "the id of a port", Wanted::Port),
    end: Refers("end", "the id of an end fitting", Wanted::End),
    angle_deg: Or("angle_deg", Quantity::HALF_TURN, 0.0),
    clock_deg: Or("clock_deg", Quantity::DEGREES, 0.0),
    straight_mm: Maybe("straight", Quantity::LENGTH),
    along_mm: Maybe("along", along(&angle_deg)),
    across_mm: Maybe("across", Quantity::LENGTH),
    socket_mm: Maybe("socket", Quantity::LENGTH),
    extra: Rest,
});

kinds!(Via { "corner": Corner(Flat), "clamp": Clamp(Flat) });

thing!(Corner { at: Must("at", POINT), radius_mm: Maybe("radius", Quantity::LENGTH), extra: Rest });

thing!(Clamp {
    at: Must("at", POINT),
    along: Must("along", DIRECTION),
    grip_mm: Maybe("grip", Quantity::LENGTH),
    straight_mm: Maybe("straight", Quantity::LENGTH),
    extra: Rest,
});

thing!(Sleeve {
    name: text("name"),
    from_mm: Maybe("from_mm", Quantity::LENGTH),
    to_mm: Maybe("to_mm", Quantity::LENGTH),
    temperature_c: Maybe("temperature_c", Quantity::CELSIUS),
    rated_for: Unless("rated_for", Each(Words(&Nature::HARMFUL)), Vec::new()),
    extra: Rest,
} then |f: &Fields<'_>, sleeve: &Self| {
    if let (Some(from), Some(to)) = (sleeve.from_mm, sleeve.to_mm)
        && to < from
    {
        f.get("to_mm", |at| at.wrong(&format!("no less than \"from_mm\", {from}")));
    }
});

thing!(Service {
    fluid: Maybe("fluid", FLUID),
    flow_lpm: Maybe("flow_lpm", Quantity::LPM),
    pressure_bar: Maybe("pressure_bar", Quantity::BAR),
    temperature_c: Maybe("temperature_c", Quantity::CELSIUS),
    density_kg_m3: Maybe("density_kg_m3", Quantity::KG_PER_M3),
    viscosity_mm2_s: Maybe("viscosity_mm2_s", Quantity::MM2_PER_S),
    flexing: Maybe("flexing", Flag),
    drains: Maybe("drains", Flag),
    extra: Rest,
});

/// An end of a run of this hose.
struct EndOf<'a> {
    key: &'static str,
    hose: &'a String,
    dash: &'a u32,
}

impl Key<RunEnd> for EndOf<'_> {
    fn read(&self, run: &Fields<'_>) -> RunEnd {
        let read = run.get(self.key, |at| {
            let f = at.fields(END);
            let end = RunEnd::read(&f);
            self.check(&f, &end);
            end
        });
        if read.is_none() {
            run.missing(self.key, END);
        }
        read.unwrap_or_default()
    }

    fn write<'a>(&self, value: &'a RunEnd, to: &mut Entries<'a>) {
        to.put(self.key, value.tree());
    }
}

impl EndOf<'_> {
    /// An end has to be named, or measured whole; where it is not measured whole, it has to come in
    /// this dash number and angle.
    fn check(&self, f: &Fields<'_>, end: &RunEnd) {
        if ["along", "across", "socket"].iter().all(|key| f.has(key)) {
            return;
        }
        if !f.has("end") {
            f.missing(
                "end",
                "the id of an end fitting, or \"along\", \"across\" and \"socket\" all measured",
            );
        }
        if let (Some(id), true) = (&end.end, *self.dash != 0 && f.are_sound(["angle_deg"])) {
            let (hose, dash, angle_deg) = (self.hose.clone(), *self.dash, end.angle_deg);
            let wanted = Wanted::EndSize { end: id.clone(), hose, dash, angle_deg };
            f.get("end", |at| at.want(wanted));
        }
    }
}

/// Slack by free length: as many figures as there are free lengths.
struct SlackOf<'a>(&'a [Via]);

impl SlackOf<'_> {
    fn lengths(&self) -> usize {
        1 + self.0.iter().filter(|via| matches!(via, Via::Clamp(_))).count()
    }
}

impl Kind for SlackOf<'_> {
    type Out = Vec<f64>;

    fn expected(&self) -> String {
        let lengths = self.lengths();
        format!(
            "the slack of each free length from A to B in mm, here {lengths} (one more than clamps)"
        )
    }

    fn accept(&self, at: &At<'_>) -> Option<Vec<f64>> {
        let items = at.items(&self.expected())?;
        if items.len() != self.lengths() {
            at.fault(format!("{} of them", items.len()), &self.expected(), None);
            return None;
        }
        items.iter().map(|item| Quantity::LENGTH.accept(item)).collect()
    }

    fn tree<'a>(&self, value: &'a Vec<f64>) -> Tree<'a> {
        value.as_slice().into()
    }
}
