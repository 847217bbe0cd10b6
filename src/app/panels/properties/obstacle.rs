//! An obstacle, or several.

use eframe::egui::{Id, Ui};

use super::port::groups;
use super::send::send;
use super::{Scene, shape};
use crate::app::actions::Action;
use crate::app::canvas::thing::Thing;
use crate::app::widgets::{Field, Form, Range, all};
use crate::document::Command;
use crate::model::{Nature, Obstacle};
use crate::units::Length;

const NAME: Field<'_> = Field::new("Name", "What the obstacle is called", "Rename obstacle");
const ID: Field<'_> = Field::new(
    "Id",
    "What the file calls it; ports screwed into it follow",
    "Change id of obstacle",
);
const NATURE: Field<'_> =
    Field::new("Nature", "What it does to a hose that comes near", "Change nature");
const MIN_CLEARANCE: Field<'_> = Field::new(
    "Min. clearance",
    "The gap asked for, surface to surface; empty: the usual one for its nature",
    "Change minimum clearance",
);
const GROUP: Field<'_> =
    Field::new("Moves with", "The moving group that the obstacle is on", "Put obstacle on group");

pub(super) fn show(ui: &mut Ui, scene: &Scene<'_>, ids: &[String], actions: &mut Vec<Action>) {
    let bay = scene.bay;
    let mut obstacles: Vec<Obstacle> =
        ids.iter().filter_map(|id| bay.obstacle(id).cloned()).collect();
    if obstacles.len() != ids.len() {
        return;
    }
    let mut form = Form::new(ui, Id::unique(("obstacle", ids)), bay.show_units);
    if obstacles.len() == 1 {
        form.text(&NAME, all(&mut obstacles, |obstacle| &mut obstacle.name));
    }
    let natures = Nature::ALL.map(|(nature, word)| (nature, word.to_owned()));
    form.choice(&NATURE, &natures, all(&mut obstacles, |obstacle| &mut obstacle.nature));
    min_clearance(&mut form, &mut obstacles);
    form.choice(&GROUP, &groups(bay), all(&mut obstacles, |obstacle| &mut obstacle.group));
    if let [obstacle] = &mut obstacles[..] {
        shape::fields(&mut form, &mut obstacle.shape);
        form.text(&ID, vec![&mut obstacle.id]);
    }
    let renamed = match (ids, &obstacles[..]) {
        ([old], [obstacle]) if *old != obstacle.id => Some(Thing::Obstacle(obstacle.id.clone())),
        _ => None,
    };
    let set = |label| {
        let set = |(id, obstacle): (&String, Obstacle)| Command::SetObstacle {
            id: id.clone(),
            obstacle: Box::new(obstacle),
            label,
        };
        ids.iter().zip(obstacles).map(set).collect()
    };
    if send(&mut form, bay, actions, set) {
        actions.extend(renamed.map(Action::Select));
    }
}

fn min_clearance(form: &mut Form<'_>, obstacles: &mut [Obstacle]) {
    let nature = obstacles.first().map(|obstacle| obstacle.nature).unwrap_or_default();
    let same = obstacles.iter().all(|obstacle| obstacle.nature == nature);
    let usual = Length::from_mm(nature.default_min_clearance_mm()).show(form.units());
    let hint = if same { format!("usual: {usual}") } else { "usual".to_owned() };
    let length = form.length();
    form.maybe(
        &MIN_CLEARANCE,
        length,
        Range::NotNegative,
        &hint,
        all(obstacles, |s| &mut s.min_clearance_mm),
    );
    if same && obstacles.iter().all(|obstacle| obstacle.min_clearance_mm.is_none()) {
        form.remark(usual_source(nature));
    }
}

/// Where [`Nature::default_min_clearance_mm`] comes from.
fn usual_source(nature: Nature) -> &'static str {
    match nature {
        Nature::Plain => "must not touch",
        Nature::Hot => "2 in, FAA AD 95-26-13 (published)",
        Nature::Moving | Nature::Sharp => "common practice",
    }
}
