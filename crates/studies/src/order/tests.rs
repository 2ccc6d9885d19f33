//! Orders of whole boxes: every reason is kept, and nothing is shut in untested.

use super::*;
use crate::carpentry::{self, PartKind, Stage};
use crate::finish::Finish;
use crate::subject::Subject;
use proptest::prelude::*;
use std::collections::BTreeSet;

const BEACH: &str = include_str!("../../../../examples/bathing-beach/design.toml");
const MONO: &str = include_str!("../../../../examples/workshop-mono/design.toml");
const PARTY: (&str, &str) = (
    include_str!("../../../../examples/salvage-party/design.toml"),
    include_str!("../../../../examples/salvage-party/shelf.toml"),
);

struct Studied {
    subject: Subject,
    carpentry: carpentry::Carpentry,
    finish: Finish,
}

impl Studied {
    fn of(design: &str, shelf: Option<&str>) -> Option<Self> {
        let project = design::read(design, shelf).ok()?;
        let subject = Subject::new(project, 1.0).ok()?;
        let carpentry = carpentry::study(&subject);
        let finish = crate::finish::study(&subject, &carpentry);
        Some(Self {
            subject,
            carpentry,
            finish,
        })
    }

    fn site(&self) -> Site<'_> {
        let design = &self.subject.project.design;
        Site::new(design, &self.carpentry, &self.finish, None)
    }

    fn order(&self) -> Order {
        ordered(&self.site(), Vec::new())
    }
}

/// What must hold of an order of steps, told apart from how it was found: everything here is
/// read from the design and the carpentry, not from the links.
fn faults(studied: &Studied, order: &[&str]) -> Vec<String> {
    let at = |id: &str| order.iter().position(|step| *step == id);
    let site = studied.site();
    let mut faults = Vec::new();
    let mut before = |a: &str, b: &str| {
        if let (Some(first), Some(then)) = (at(a), at(b))
            && first >= then
        {
            faults.push(format!("{a} must come before {b}"));
        }
    };
    // Nothing is shut in before it is wired and tested, and nothing is put in afterwards.
    let shutting = site.shutting();
    let needs_test = [
        "test-indicator",
        "test-isolation",
        "test-coils",
        "test-polarity",
        "test-power-up",
        "test-idle",
        "test-offset",
        "test-sine",
        "test-sag",
    ];
    for id in needs_test
        .into_iter()
        .chain(["wire", "wire-outputs", "filling", "seal", "vents"])
    {
        before(id, shutting);
    }
    // Each test makes the next one safe.
    for pair in needs_test[1..].windows(2) {
        before(pair[0], pair[1]);
    }
    for line in &studied.carpentry.access {
        let part = &studied.carpentry.parts[line.part];
        let id = match part.kind {
            PartKind::Battery => "fit-battery".to_owned(),
            PartKind::Board => "fit-amplifier".to_owned(),
            PartKind::Control => "fit-panel".to_owned(),
            PartKind::Driver => "fit-drivers".to_owned(),
            PartKind::Radiator => "fit-radiator".to_owned(),
            PartKind::Other => format!("fit-{}", part.table.replace('.', "-")),
            _ => continue,
        };
        match line.goes_in {
            Stage::Open => before(&id, "glue-01"),
            Stage::BeforeLast => before(&id, "close"),
            // What can wait for the coats does.
            Stage::Closed => {
                before("unmask", &id);
                before("handled", &id);
            }
        }
        if site.screwed {
            before(&id, "close");
        }
    }
    for id in order.iter().filter(|id| id.starts_with("coat-")) {
        before("sand", id);
        before("mask", id);
        before(id, "unmask");
        before("offcut", id);
    }
    for id in order.iter().filter(|id| id.starts_with("glue-")) {
        for wood in ["saw", "edges", "drill-before", "dry-fit"] {
            before(wood, id);
        }
        before(id, "seal");
        before(id, "sand");
    }
    for (first, then) in [
        ("harness", "wire-outputs"),
        ("indicator", "test-indicator"),
        ("test-indicator", "wire"),
        ("panel-parts", "wire"),
        ("plate", "panel-parts"),
        ("wire-outputs", "test-isolation"),
        ("test-isolation", "test-coils"),
        ("test-polarity", "wire"),
        ("wire", "test-power-up"),
        ("wire", "filling"),
        ("test-pair", "test-impedance"),
        ("test-pair", shutting),
        ("wire-outputs", "test-pair"),
        ("sand", "mask"),
        ("unmask", "handled"),
        ("handled", "cured"),
        ("cured", "fit-feet"),
        ("cured", "fit-grille"),
    ] {
        before(first, then);
    }
    before("test-ring", "saw");
    before("test-ring", "edges");
    for closed in ["test-leak", "test-impedance", "test-buzz"] {
        before("close", closed);
        before("fit-drivers", closed);
    }
    faults
}

/// A topological order picked at random: any that keeps the links must keep all that matters.
fn random_order(graph: &graph::Graph, seed: u64) -> Vec<String> {
    let mut state = seed;
    let mut done: BTreeSet<String> = BTreeSet::new();
    let mut order = Vec::new();
    while order.len() < graph.names().count() {
        let open: Vec<&str> = graph
            .names()
            .filter(|name| !done.contains(*name))
            .filter(|name| {
                graph
                    .links(name)
                    .iter()
                    .all(|link| done.contains(&link.before))
            })
            .collect();
        assert!(!open.is_empty(), "a ring");
        state = state
            .wrapping_mul(6_364_136_223_846_793_005)
            .wrapping_add(1_442_695_040_888_963_407);
        let pick = open[(state >> 33) as usize % open.len()].to_owned();
        done.insert(pick.clone());
        order.push(pick);
    }
    order
}

fn sound(studied: &Studied, seed: u64) {
    let site = studied.site();
    let (drafts, _) = settled(site.finish, |late| steps::gather(&site, late));
    let order = studied.order();
    assert_eq!(
        order.steps.len(),
        drafts.steps.len(),
        "every step has its place"
    );
    let ids: Vec<&str> = order.steps.iter().map(|step| step.id.as_str()).collect();
    assert_eq!(faults(studied, &ids), Vec::<String>::new());
    for (index, step) in order.steps.iter().enumerate() {
        for (before, _) in &step.after {
            assert!(*before < index, "{}", step.id);
            assert!(
                order.steps[*before].ready <= step.begins + 1e-6,
                "{}",
                step.id
            );
        }
        assert!(step.hands.quick <= step.hands.usual && step.hands.usual <= step.hands.slow);
    }
    let total = order.total;
    assert!(
        total.days[0] <= total.days[1] && total.days[1] <= total.days[2],
        "{total:?}"
    );
    assert!(
        total.hands.usual <= f64::from(total.days[1]) * total.day + 1e-6,
        "{total:?}"
    );
    for turn in 0..4 {
        let other = random_order(&drafts.graph, seed.wrapping_add(turn));
        let other: Vec<&str> = other.iter().map(String::as_str).collect();
        assert_eq!(faults(studied, &other), Vec::<String>::new(), "{other:?}");
    }
}

#[test]
fn orders_of_the_examples_are_sound() {
    for (design, shelf) in [(BEACH, None), (MONO, None), (PARTY.0, Some(PARTY.1))] {
        for last_with in ["screws", "glue"] {
            let text = design.replace(
                "last_with = \"screws\"",
                &format!("last_with = \"{last_with}\""),
            );
            sound(&Studied::of(&text, shelf).expect("a sound design"), 7);
        }
    }
}

#[test]
fn a_missing_link_is_found_out() {
    let studied = Studied::of(BEACH, None).expect("a sound design");
    let order = studied.order();
    let mut ids: Vec<&str> = order.steps.iter().map(|step| step.id.as_str()).collect();
    let last = ids
        .iter()
        .position(|id| *id == "test-sine")
        .expect("it is tested");
    let close = ids
        .iter()
        .position(|id| *id == "close")
        .expect("it is closed");
    ids.swap(last, close);
    assert!(!faults(&studied, &ids).is_empty());
}

/// Acid does nothing to acrylic: only the metal plate is etched.
#[test]
fn only_metal_is_etched() {
    for (design, shelf, metal) in [(BEACH, None, true), (PARTY.0, Some(PARTY.1), false)] {
        let studied = Studied::of(design, shelf).expect("a sound design");
        let order = studied.order();
        let mut steps = order.steps.iter();
        let step = steps.find(|step| step.id == "lettering");
        let words = step.expect("the panel has words").words.join("; ");
        assert_eq!(words.contains("etch"), metal, "{words}");
    }
}

#[test]
fn bench_work_fills_the_waiting() {
    let studied = Studied::of(BEACH, None).expect("a sound design");
    let order = studied.order();
    let at = |id: &str| {
        order
            .steps
            .iter()
            .position(|step| step.id == id)
            .expect("a step")
    };
    assert!(
        at("glue-01") < at("harness") && at("harness") < at("seal"),
        "{:#?}",
        order.steps
    );
    assert!(order.total.meanwhile > 3600.0);
}

const WALLS: [&str; 3] = ["birch plywood 12 mm", "birch plywood 15 mm", "MDF 16 mm"];
const JOINTS: [&str; 4] = ["butt", "mitred ring", "mitred", "rebated"];
const LAST: [&str; 3] = ["back", "front", "top"];
const FINISHES: [&str; 3] = ["", "one", "two"];

prop_compose! {
    fn any_design()(
        wall in prop::sample::select(&WALLS[..]),
        joints in prop::sample::select(&JOINTS[..]),
        last in prop::sample::select(&LAST[..]),
        finish in prop::sample::select(&FINISHES[..]),
        glued: bool,
        vented: bool,
        cleats: bool,
        size in (300_u32..600, 180_u32..360, 170_u32..330),
        filling in 0_u32..60,
        things in prop::collection::vec(prop::sample::select(&THINGS[..]), 0..5),
        phone_only: bool,
    ) -> String {
        let (w, h, d) = size;
        let with = if glued { "glue" } else { "screws" };
        let kind = if vented {
            "kind = \"vented\"\n[box.vent]\ndiameter = \"46 mm\"\nlength = \"80 mm\"\ncount = 1"
        } else {
            "kind = \"sealed\""
        };
        let cleat = if cleats {
            "[[cleat]]\nname = \"strip above\"\nalong = \"top-back\"\nsection = \"15 x 15 mm\"\n\
             [[cleat]]\nname = \"strip below\"\nalong = \"bottom-back\"\nsection = \"15 x 15 mm\"\n"
        } else {
            ""
        };
        let mut kept: Vec<&str> = Vec::new();
        for thing in things {
            if !kept.contains(&thing) {
                kept.push(thing);
            }
        }
        let things = kept.concat();
        let tools = if phone_only { "[workshop]\ntools = [\"phone\"]\n" } else { "" };
        let names: Vec<String> = finishes(finish);
        let finish: String = names.iter().map(|name| format!("[[finish]]\npart = \"{name}\"\n")).collect();
        format!(r#"format = 1
name = "any"
[brief]
programme = "music"
distance = "3 m"
[place]
stands = "ground"
[[drivers]]
part = "full-range 4 in, 4 ohm"
count = 2
side = "both"
[amplifier]
part = "amplifier 2 x 15 W, 12 V"
place = "auto"
[battery]
part = "iron phosphate 12.8 V 6 Ah"
place = "auto"
[box]
outside = "{w} x {h} x {d} mm"
wall = "{wall}"
filling = "{filling} %"
joints = "{joints}"
last = "{last}"
last_with = "{with}"
{kind}
{cleat}{finish}{things}{tools}
"#)
    }
}

/// What else a box may have, each as it stands in a design.
const THINGS: [&str; 5] = [
    "[control]\non = \"right\"\nat = \"85 x 90 mm\"\nsize = \"50 x 90 mm\"\nplate = \"aluminium plate 2 mm\"\n\
     ledge = \"8 mm\"\nscrew = \"3 mm\"\n[[control.part]]\npart = \"toggle switch, M12\"\nat = \"25 x 60 mm\"\n\
     label = \"ON\"\ndoes = \"power\"\n",
    "[handle]\non = \"top\"\nspacing = \"120 mm\"\nbolt = \"5 mm\"\nweight = \"120 g\"\n",
    "[feet]\ncount = 4\ndiameter = \"20 mm\"\nheight = \"8 mm\"\ninset = \"25 mm\"\nscrew = \"4 mm\"\n",
    "[[module]]\npart = \"inline holder for a blade fuse\"\nname = \"battery fuse\"\ndoes = \"fuse\"\n\
     fuse = \"blade fuse 4 A\"\n",
    "[indicator]\nwarning = \"20 min\"\n",
];

/// Finishes of the built-in shelf: none, its first, or its first two.
fn finishes(many: &str) -> Vec<String> {
    let project = design::read(BEACH, None).expect("a sound design");
    let count = match many {
        "one" => 1,
        "two" => 2,
        _ => 0,
    };
    let parts = project.shelf.finishes.iter().take(count);
    parts.map(|part| part.common.name.text.clone()).collect()
}

/// A box as the generator makes it, with nothing added.
const GENERATED: &str = r#"format = 1
name = "any"
[brief]
programme = "music"
distance = "3 m"
[place]
stands = "ground"
[[drivers]]
part = "full-range 4 in, 4 ohm"
count = 2
side = "both"
[amplifier]
part = "amplifier 2 x 15 W, 12 V"
place = "auto"
[battery]
part = "iron phosphate 12.8 V 6 Ah"
place = "auto"
[box]
outside = "420 x 260 x 240 mm"
wall = "birch plywood 12 mm"
filling = "30 %"
last_with = "screws"
kind = "sealed"
"#;

/// What the generator adds is understood, so that the designs it makes are studied, not passed
/// over.
#[test]
fn things_of_the_generator_make_sound_designs() {
    for thing in THINGS {
        let text = format!("{GENERATED}{thing}");
        assert!(Studied::of(&text, None).is_some(), "{thing}");
    }
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 48, failure_persistence: None, ..ProptestConfig::default() })]

    #[test]
    fn orders_of_any_box_are_sound(design in any_design(), seed: u64) {
        if let Some(studied) = Studied::of(&design, None) {
            sound(&studied, seed);
        }
    }
}

/// The finish page shows the days of the one order there is.
#[test]
fn more_coats_never_end_sooner_nor_take_less_work() {
    let of = |coats: u32| {
        let lacquer = format!("[[finish]]\npart = \"water-based lacquer\"\ncoats = {coats}\n");
        let plain = BEACH.replace("[[finish]]", "[[ignored]]");
        let kept = plain.split("[[ignored]]").next().expect("text before it");
        let rest = plain.find("[workshop]").map_or("", |at| &plain[at..]);
        let studied = Studied::of(&format!("{kept}{lacquer}{rest}"), None).expect("it is sound");
        let schedule = of_finish(&studied.order());
        Finish {
            schedule,
            ..studied.finish.clone()
        }
    };
    let all: Vec<Finish> = (1..5).map(of).collect();
    for pair in all.windows(2) {
        let [few, more] = pair else { unreachable!() };
        assert!(more.cured() > few.cured());
        assert!(more.handled() > few.handled());
        assert!(more.hands_on() > few.hands_on());
    }
}

/// The longest chain of work and waiting, by relaxing every link until nothing moves any more
/// (Bellman and Ford): another route than the tails that the schedule goes by.
fn longest_chain(graph: &graph::Graph) -> f64 {
    let names: Vec<&str> = graph.names().collect();
    let mut ends: BTreeMap<&str, f64> = names
        .iter()
        .map(|name| (*name, graph.time(name).hands))
        .collect();
    for _ in 0..=names.len() {
        for name in &names {
            for link in graph.links(name) {
                let through =
                    ends[link.before.as_str()] + graph.wait(link) + graph.time(name).hands;
                if through > ends[name] {
                    ends.insert(name, through);
                }
            }
        }
    }
    let ready = ends.iter().map(|(name, end)| end + graph.time(name).wait);
    ready.fold(0.0, f64::max)
}

/// No order of the work ends before its longest chain, and the one given ends no later than all
/// work and that chain one after the other; days at the bench can only lengthen it.
#[test]
fn the_longest_chain_bounds_every_schedule() {
    const ALWAYS: Hours = Hours {
        bench: f64::INFINITY,
    };
    for (design, shelf) in [(BEACH, None), (MONO, None), (PARTY.0, Some(PARTY.1))] {
        let studied = Studied::of(design, shelf).expect("a sound design");
        let site = studied.site();
        let (drafts, slots) = settled(site.finish, |late| steps::gather(&site, late));
        let chain = longest_chain(&drafts.graph);
        let tails = drafts.graph.tails().expect("there is an order");
        let longest = tails.values().copied().fold(0.0, f64::max);
        assert!((chain - longest).abs() < 1e-6, "{chain} {longest}");
        let hands: f64 = slots.iter().map(|slot| slot.ends - slot.begins).sum();
        let without_nights = finished(&schedule(&drafts.graph, ALWAYS));
        assert!(without_nights >= chain - 1e-6 && without_nights <= chain + hands);
        assert!(finished(&slots) >= without_nights - 1e-6);
        let order = studied.order();
        assert!((order.total.until_ready.usual - finished(&slots)).abs() < 1e-6);
        assert!(order.total.meanwhile <= hands && order.total.meanwhile > 0.0);
    }
}
