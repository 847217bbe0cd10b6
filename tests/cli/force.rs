//! What is written over what: our own earlier output silently, anything else only with `--force`.

use crate::bench::Bench;

/// Every command that writes, with each of its endings.
const CALLS: [(&[&str], &str); 12] = [
    (&["sheet", "my.bay.json", "--out"], "a.pdf"),
    (&["sheet", "my.bay.json", "--out"], "a.html"),
    (&["sheet", "my.bay.json", "--out"], "a.csv"),
    (&["sheet", "my.bay.json", "--out"], "a.json"),
    (&["labels", "my.bay.json", "--out"], "b.pdf"),
    (&["template", "my.bay.json", "feed", "--out"], "c.pdf"),
    (&["draw", "my.bay.json", "--view", "plan", "--out"], "d.dxf"),
    (&["draw", "my.bay.json", "--view", "side", "--out"], "d.svg"),
    (&["compare", "my.bay.json", "--out"], "e.pdf"),
    (&["compare", "my.bay.json", "--out"], "e.csv"),
    (&["compare", "my.bay.json", "--out"], "e.json"),
    (&["cutlist", "my.bay.json", "--csv"], "f.csv"),
];

#[test]
fn only_our_own_earlier_output_is_replaced_silently() {
    let bench = Bench::with_test_bay();
    for (call, name) in CALLS {
        let write = |more: &[&str]| bench.run(&[call, &[name], more].concat());
        assert_ne!(write(&[]).status, Some(2), "{call:?}");
        let ours = bench.bytes(name);
        assert_ne!(write(&[]).status, Some(2), "{call:?} {name}: over our own");
        assert_eq!(bench.bytes(name), ours, "{name}");

        let other = "somebody's work, not ours: Hosewright is named in it\n";
        bench.put(name, other);
        let refused = write(&[]);
        let message = refused.is_refused();
        assert!(message.contains(name) && message.contains("--force"), "{message}");
        assert_eq!(bench.text(name), other, "{name}");
        assert_ne!(write(&["--force"]).status, Some(2), "{call:?} {name}");
        assert_eq!(bench.bytes(name), ours, "{name}");
    }
}

#[test]
fn another_bay_and_an_empty_file() {
    let bench = Bench::with_test_bay();
    let bay = bench.text("my.bay.json");
    bench.put("other.json", &bay);
    let call = ["sheet", "my.bay.json", "--out", "other.json"];
    assert!(bench.run(&call).is_refused().contains("--force"));
    assert_eq!(bench.text("other.json"), bay);
    bench.put("empty.csv", "");
    bench.run(&["sheet", "my.bay.json", "--out", "empty.csv"]).wrote("empty.csv");
}

#[test]
fn a_drawing_of_ours_that_is_a_background_by_now() {
    let bench = Bench::with_changed_bay(|bay| {
        bay["backgrounds"] = serde_json::json!([{ "id": "plan", "kind": "outline", "view": "plan",
            "file": "plan.dxf", "scale": 1, "origin": [0, 0] }]);
    });
    let call = ["draw", "my.bay.json", "--view", "plan", "--out", "plan.dxf"];
    bench.run(&call).wrote("plan.dxf");
    assert!(bench.run(&call).is_refused().contains("--force"));
    bench.run(&[&call[..], &["--force"]].concat()).wrote("plan.dxf");
}
