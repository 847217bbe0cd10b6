//! A solid to keep off, or several.

use eframe::egui::{Id, Ui};

use super::port::bodies;
use super::send::send;
use super::{Scene, shape};
use crate::app::actions::Action;
use crate::app::canvas::thing::Thing;
use crate::app::widgets::{Field, Form, Range, all};
use crate::document::Command;
use crate::model::{Nature, Solid};
use crate::units::Length;

const NAME: Field<'_> = Field::new("Name", "What the solid is called", "Rename solid");
const ID: Field<'_> =
    Field::new("Id", "What the file calls it; ports screwed into it follow", "Change id of solid");
const NATURE: Field<'_> = Field::new("Nature", "Why a hose keeps off it", "Change nature");
const KEEP_OFF: Field<'_> = Field::new(
    "Keep off",
    "The distance to keep, surface to surface; empty: what is usual for its nature",
    "Change keep-off",
);
const BODY: Field<'_> =
    Field::new("Rides on", "The body that the solid moves with", "Put solid on body");

pub(super) fn show(ui: &mut Ui, scene: &Scene<'_>, ids: &[String], actions: &mut Vec<Action>) {
    let bay = scene.bay;
    let mut solids: Vec<Solid> = ids.iter().filter_map(|id| bay.solid(id).cloned()).collect();
    if solids.len() != ids.len() {
        return;
    }
    let mut form = Form::new(ui, Id::unique(("solid", ids)), bay.show_units);
    if solids.len() == 1 {
        form.text(&NAME, all(&mut solids, |solid| &mut solid.name));
    }
    let natures = Nature::ALL.map(|(nature, word)| (nature, word.to_owned()));
    form.choice(&NATURE, &natures, all(&mut solids, |solid| &mut solid.nature));
    keep_off(&mut form, &mut solids);
    form.choice(&BODY, &bodies(bay), all(&mut solids, |solid| &mut solid.body));
    if let [solid] = &mut solids[..] {
        shape::fields(&mut form, &mut solid.shape);
        form.text(&ID, vec![&mut solid.id]);
    }
    let renamed = match (ids, &solids[..]) {
        ([old], [solid]) if *old != solid.id => Some(Thing::Solid(solid.id.clone())),
        _ => None,
    };
    let set = |label| {
        let set = |(id, solid): (&String, Solid)| Command::SetSolid {
            id: id.clone(),
            solid: Box::new(solid),
            label,
        };
        ids.iter().zip(solids).map(set).collect()
    };
    if send(&mut form, bay, actions, set) {
        actions.extend(renamed.map(Action::Select));
    }
}

fn keep_off(form: &mut Form<'_>, solids: &mut [Solid]) {
    let nature = solids.first().map(|solid| solid.nature).unwrap_or_default();
    let same = solids.iter().all(|solid| solid.nature == nature);
    let usual = Length::from_mm(nature.default_keep_off_mm()).show(form.units());
    let hint = if same { format!("usual: {usual}") } else { "usual".to_owned() };
    let length = form.length();
    form.maybe(&KEEP_OFF, length, Range::NotNegative, &hint, all(solids, |s| &mut s.keep_off_mm));
    if same && solids.iter().all(|solid| solid.keep_off_mm.is_none()) {
        form.remark(usual_source(nature));
    }
}

/// Where [`Nature::default_keep_off_mm`] comes from.
fn usual_source(nature: Nature) -> &'static str {
    match nature {
        Nature::Plain => "only not to touch",
        Nature::Hot => "2 in, FAA AD 95-26-13 (published)",
        Nature::Moving | Nature::Sharp => "common practice",
    }
}
