use glam::{DVec3, dvec3};
use proptest::prelude::*;

use super::*;
use crate::model::{BenchRecord, Clamp, Corner, Port, Routing, Run, RunEnd, Service, Via};
use crate::units::LengthUnit;

fn port(id: &str, at: DVec3) -> Port {
    Port {
        id: id.into(),
        name: id.into(),
        at,
        toward: DVec3::X,
        dash: Some(6),
        group: None,
        on: None,
        locked: None,
        extra: vec![],
    }
}

fn bay() -> Bay {
    let end = |port: &str| RunEnd { port: port.into(), ..RunEnd::default() };
    let run = Run {
        id: "feed".into(),
        name: "Feed".into(),
        hose: "h".into(),
        dash: 6,
        from: end("a"),
        to: end("b"),
        via: vec![
            Via::Corner(Corner { at: dvec3(100.0, 0.0, 0.0), ..Corner::default() }),
            Via::Clamp(Clamp { at: dvec3(200.0, 50.0, 0.0), along: DVec3::X, ..Clamp::default() }),
        ],
        radius_mm: None,
        slack_pct: None,
        slack_mm: None,
        outside_mm: None,
        conductive_liner: None,
        dry_fit_mm: None,
        sleeves: Vec::new(),
        bench: BenchRecord::default(),
        service: Service::default(),
        extra: vec![],
    };
    Bay {
        title: "Bench".into(),
        ports: vec![port("a", DVec3::ZERO), port("b", dvec3(300.0, 50.0, 0.0))],
        routings: vec![Routing { id: "one".into(), runs: vec![run], ..Routing::default() }],
        ..Bay::default()
    }
}

fn move_via(via: usize, to: DVec3) -> Command {
    Command::MoveVia { routing: "one".into(), run: "feed".into(), via, to }
}

#[test]
fn a_drag_is_one_named_step() {
    let mut doc = Document::new(bay(), None);
    doc.begin();
    for x in 1..20 {
        doc.preview(&move_via(0, dvec3(100.0 + f64::from(x), 5.0, 0.0))).unwrap();
    }
    assert!(doc.commit());
    assert_eq!(doc.history().depth(), 1);
    assert_eq!(doc.history().undo_label(), Some("Move corner"));
    assert_eq!(doc.undo(), Some("Move corner"));
    assert_eq!(**doc.bay(), bay());
    assert_eq!(doc.redo(), Some("Move corner"));
    assert_eq!(doc.bay().routings[0].runs[0].via[0].at(), dvec3(119.0, 5.0, 0.0));
}

#[test]
fn a_clamp_is_named_as_one() {
    let mut doc = Document::new(bay(), None);
    assert_eq!(doc.apply(&move_via(1, DVec3::ZERO)), Ok(true));
    assert_eq!(doc.history().undo_label(), Some("Move clamp"));
}

#[test]
fn aborting_leaves_nothing_behind() {
    let mut doc = Document::new(bay(), None);
    doc.begin();
    doc.preview(&move_via(0, DVec3::ONE)).unwrap();
    assert!(doc.is_changed());
    doc.abort();
    assert!(!doc.is_changed());
    assert_eq!(doc.history().depth(), 0);
    assert_eq!(**doc.bay(), bay());
}

#[test]
fn a_drag_back_to_its_start_is_no_step() {
    let mut doc = Document::new(bay(), None);
    doc.begin();
    doc.preview(&move_via(0, DVec3::ONE)).unwrap();
    doc.preview(&move_via(0, dvec3(100.0, 0.0, 0.0))).unwrap();
    assert!(!doc.commit());
    assert_eq!(doc.history().depth(), 0);
}

#[test]
fn undo_in_the_middle_of_a_drag_only_ends_the_drag() {
    let mut doc = Document::new(bay(), None);
    doc.apply(&Command::SetTitle("Other".into())).unwrap();
    doc.preview(&move_via(0, DVec3::ONE)).unwrap();
    assert_eq!(doc.undo(), None);
    assert_eq!(doc.bay().title, "Other");
    assert_eq!(doc.history().depth(), 1);
}

#[test]
fn a_refused_command_changes_nothing() {
    let mut doc = Document::new(bay(), None);
    let refused = [
        (move_via(7, DVec3::ZERO), CommandError::NoVia { run: "feed".into(), via: 7 }),
        (move_via(0, DVec3::NAN), CommandError::NotFinite),
        (Command::MovePort { port: "z".into(), to: DVec3::ZERO }, CommandError::NoPort("z".into())),
        (
            Command::MoveVia { routing: "two".into(), run: "feed".into(), via: 0, to: DVec3::ZERO },
            CommandError::NoRun { routing: "two".into(), run: "feed".into() },
        ),
    ];
    for (command, error) in refused {
        assert_eq!(doc.apply(&command), Err(error));
        assert_eq!(**doc.bay(), bay());
        assert!(!doc.in_transaction());
        assert_eq!(doc.revision(), 0);
    }
}

#[test]
fn changed_is_told_from_the_saved_state() {
    let mut doc = Document::new(bay(), None);
    doc.apply(&Command::SetUnits(LengthUnit::Inch)).unwrap();
    assert!(doc.is_changed());
    doc.mark_saved("x.bay.json".into());
    assert!(!doc.is_changed());
    doc.undo();
    assert!(doc.is_changed());
    doc.redo();
    assert!(!doc.is_changed());
    // The way back by a new command counts too.
    doc.apply(&Command::SetUnits(LengthUnit::Mm)).unwrap();
    doc.apply(&Command::SetUnits(LengthUnit::Inch)).unwrap();
    assert!(!doc.is_changed());
    assert_eq!(doc.path(), Some(Path::new("x.bay.json")));
}

fn command() -> impl Strategy<Value = Command> {
    let place = || {
        (-3i32..3, -3i32..3, -3i32..3)
            .prop_map(|(x, y, z)| dvec3(f64::from(x), f64::from(y), f64::from(z)))
    };
    prop_oneof![
        (prop_oneof!["a", "b", "c"], place()).prop_map(|(port, to)| Command::MovePort { port, to }),
        (0usize..3, place()).prop_map(|(via, to)| move_via(via, to)),
        any::<bool>().prop_map(|inch| {
            Command::SetUnits(if inch { LengthUnit::Inch } else { LengthUnit::Mm })
        }),
        "[ab]".prop_map(Command::SetTitle),
    ]
}

proptest! {
    #[test]
    fn undoing_to_the_start_gives_the_first_bay_back(
        steps in prop::collection::vec((command(), 0u8..8), 0..60)
    ) {
        let mut doc = Document::new(bay(), None);
        for (command, how) in &steps {
            let before = Arc::clone(doc.bay());
            let depth = doc.history().depth();
            match how {
                0 => { doc.undo(); }
                1 => { doc.redo(); }
                2 => {
                    let _refused_is_fine = doc.preview(command);
                    doc.abort();
                    prop_assert_eq!(&**doc.bay(), &*before);
                }
                _ => {
                    let changed = doc.apply(command).unwrap_or(false);
                    prop_assert_eq!(changed, **doc.bay() != *before);
                    prop_assert_eq!(doc.history().depth(), depth + usize::from(changed));
                }
            }
            prop_assert!(!doc.in_transaction());
            prop_assert_eq!(doc.is_changed(), **doc.bay() != bay());
        }
        let last = Bay::clone(doc.bay());
        let mut undone = 0;
        while doc.undo().is_some() { undone += 1; }
        prop_assert_eq!(&**doc.bay(), &bay());
        prop_assert!(!doc.is_changed());
        for _ in 0..undone { doc.redo(); }
        prop_assert_eq!(&**doc.bay(), &last);
    }
}
