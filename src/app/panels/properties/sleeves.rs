//! The sleeves that a hose wears.

use crate::app::widgets::{Field, Form, Range};
use crate::engine::RunSolution;
use crate::model::{Nature, Run, Sleeve};
use crate::units::{Length, Measure};

const ADD: Field<'_> = Field::new(
    "",
    "A sleeve over the hose; where it begins and ends is measured along the drawn hose from cut end A",
    "Add sleeve",
)
.named("Add a sleeve");

const CHANGE: &str = "Change sleeve";

pub(super) fn section(form: &mut Form<'_>, run: &mut Run, solved: Option<&RunSolution>) {
    let summary = match run.sleeves.len() {
        0 => "none".to_owned(),
        1 => run.sleeves[0].shown_name().to_owned(),
        count => format!("{count} sleeves"),
    };
    form.section("Sleeves", &summary, false, |form| {
        let mut removed = None;
        for (index, sleeve) in run.sleeves.iter_mut().enumerate() {
            let number = index + 1;
            form.within(&format!("sleeve {number}"), |form| fields(form, sleeve, number, solved));
            let name = format!("Remove sleeve {number}");
            if form.button(
                "Remove",
                &Field::new("", "Remove this sleeve", "Remove sleeve").named(&name),
            ) {
                removed = Some(index);
            }
        }
        if let Some(index) = removed {
            run.sleeves.remove(index);
        }
        if !run.sleeves.is_empty() {
            form.remark(
                "A fire sleeve does not raise the hose's temperature rating (NAVEDTRA 14018)",
            );
        }
        if form.button("Add a sleeve", &ADD) {
            run.sleeves.push(Sleeve::default());
        }
    });
}

fn fields(form: &mut Form<'_>, sleeve: &mut Sleeve, number: usize, solved: Option<&RunSolution>) {
    let of = |what: &str| format!("{what} of sleeve {number}");
    let (name, from, to, rated) = (of("Name"), of("From"), of("To"), of("Rating"));
    let length = form.length();
    form.text(&field("Sleeve", "What it is called on the sheet", &name), vec![&mut sleeve.name]);
    let begins = field("From", "Where it begins, from cut end A; empty: at end A", &from);
    form.maybe(&begins, length, Range::NotNegative, "end A", vec![&mut sleeve.from_mm]);
    let ends = field("To", "Where it ends, from cut end A; empty: at end B", &to);
    let end_b = solved.map_or_else(
        || "end B".to_owned(),
        |solved| format!("end B: {}", Length::from_mm(solved.centreline_mm).show(form.units())),
    );
    form.maybe(&ends, length, Range::NotNegative, &end_b, vec![&mut sleeve.to_mm]);
    for (nature, word) in Nature::HARMFUL {
        let name = of(&format!("Rated for {word}"));
        let label = format!("For {word}");
        let tip = "Whether its manufacturer rates it for this";
        rated_for(form, sleeve, nature, &field(&label, tip, &name));
    }
    let rating = field("Rated to", "The temperature that its manufacturer rates it to", &rated);
    let temperature = Measure::Temperature(form.units().into());
    form.maybe(&rating, temperature, Range::Any, "not given", vec![&mut sleeve.temperature_c]);
}

fn field<'f>(label: &'f str, tip: &'f str, name: &'f str) -> Field<'f> {
    Field::new(label, tip, CHANGE).named(name)
}

/// Whether it protects from obstacles of this nature.
fn rated_for(form: &mut Form<'_>, sleeve: &mut Sleeve, nature: Nature, field: &Field<'_>) {
    let was = sleeve.rated_for.contains(&nature);
    let mut is = was;
    form.choice(field, &[(false, "no".to_owned()), (true, "yes".to_owned())], vec![&mut is]);
    if is != was {
        sleeve.rated_for.retain(|rated| *rated != nature);
        sleeve.rated_for.extend(is.then_some(nature));
    }
}
