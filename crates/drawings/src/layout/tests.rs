use super::*;
use crate::geometry::{Point, Rect};
use crate::paper::Paper;
use crate::sheet::Sheet;
use proptest::prelude::*;
use studies::check::Severity;

fn title(project: &str, title: &str) -> TitleBlock {
    TitleBlock {
        project: project.to_owned(),
        title: title.to_owned(),
        number: 3,
        count: 12,
        scale: "1 : 4".to_owned(),
        revision: "14".to_owned(),
        date: "2001-02-03".to_owned(),
        paper: Paper::A4,
    }
}

fn table(rows: usize) -> Table {
    Table {
        columns: vec![
            Column::new("part", Align::Left, 3.0),
            Column::new("price in €", Align::Decimal, 1.0),
        ],
        rows: (0..rows)
            .map(|i| {
                vec![
                    Cell::from(format!("part {i}")),
                    Cell::from(format!("{i}.50")),
                ]
            })
            .collect(),
    }
}

#[test]
fn decimal_points_stand_under_one_another() {
    let table = Table {
        columns: vec![Column::new("", Align::Decimal, 1.0)],
        rows: ["1.25", "100.5", "−7", "12 mm"]
            .map(|t| vec![Cell::from(t)])
            .to_vec(),
    };
    let points: Vec<f64> = table
        .pieces(40.0)
        .iter()
        .map(|p| match &p.drawing.items[0] {
            crate::sheet::Item::Text(t) => {
                let whole = t.content.split(['.', ' ']).next().unwrap();
                t.start().x + BODY.width(whole)
            }
            other => panic!("{other:?}"),
        })
        .collect();
    for x in &points {
        assert!((x - points[0]).abs() < 1e-9, "{points:?}");
    }
}

#[test]
fn a_long_table_goes_on_with_its_heading_on_the_next_page() {
    let area = Rect::new(0.0, 0.0, 80.0, 60.0);
    let pages = flow(&[Box::new(table(30))], area, 1, 0.0);
    assert!(pages.len() > 1);
    for page in &pages {
        let heads = page
            .items
            .iter()
            .filter(|i| matches!(i, crate::sheet::Item::Text(t) if t.content == "part"))
            .count();
        assert_eq!(heads, 1);
        assert!(page.bounds().unwrap().bottom() <= area.bottom() + 1e-6);
    }
}

#[test]
fn a_heading_never_ends_a_column() {
    // Room for the paragraph and the heading, not for the row under it.
    let blocks: Vec<Box<dyn Block>> = vec![
        Box::new(Paragraph::new("first")),
        Box::new(Heading::new("Second", "")),
        Box::new(Paragraph::new("third")),
    ];
    let pages = flow(&blocks, Rect::new(0.0, 0.0, 50.0, 14.0), 1, 0.0);
    assert_eq!(pages.len(), 2);
    assert_eq!(pages[0].items.len(), 1);
    assert_eq!(pages[1].items.len(), 2);
}

#[test]
fn the_last_rows_of_a_table_stay_together() {
    let area = Rect::new(0.0, 0.0, 80.0, 60.0);
    for rows in 3..40 {
        let pages = flow(&[Box::new(table(rows))], area, 1, 0.0);
        let last = pages.last().unwrap();
        let count = last
            .items
            .iter()
            .filter(|i| matches!(i, crate::sheet::Item::Text(t) if t.content.starts_with("part ")))
            .count();
        assert!(count >= 3, "{rows} rows: {count} on the last page");
    }
}

#[test]
fn gaps_shrink_where_that_saves_a_slight_page() {
    let blocks: Vec<Box<dyn Block>> = (0..11)
        .map(|i| Box::new(Paragraph::new(&format!("line {i}"))) as Box<dyn Block>)
        .collect();
    let piece = blocks[0].pieces(80.0)[0].height;
    // Room for ten and a half.
    let area = Rect::new(0.0, 0.0, 80.0, 10.5 * (piece + 2.5));
    assert_eq!(flow(&blocks[..10], area, 1, 0.0).len(), 1);
    assert_eq!(flow(&blocks, area, 1, 0.0).len(), 1);
    let small = Rect {
        h: area.h / 2.0,
        ..area
    };
    assert!(flow(&blocks, small, 1, 0.0).len() > 1);
}

#[test]
fn bars_are_not_parted_from_one_another_or_their_heading() {
    let bar = |name: &str| Bar {
        name: name.to_owned(),
        value: "1 %".to_owned(),
        length: 1.0,
    };
    let bars = Bars {
        bars: ["one", "two", "three"].map(bar).to_vec(),
    };
    let blocks: Vec<Box<dyn Block>> = vec![
        Box::new(Paragraph::new("first")),
        Box::new(Heading::new("Second", "")),
        Box::new(bars),
    ];
    let pages = flow(&blocks, Rect::new(0.0, 0.0, 50.0, 27.0), 1, 0.0);
    assert_eq!(pages.len(), 2);
    assert_eq!(pages[0].items.len(), 1);
}

#[test]
fn the_check_square_is_20_mm() {
    let sheet = title("Demo", "Cuts").sheet();
    let found = sheet.drawing.items.iter().any(|i| {
        matches!(i, crate::sheet::Item::Shape(crate::sheet::Shape::Rect(r), _)
            if r.w == 20.0 && r.h == 20.0)
    });
    assert!(found);
}

proptest! {
    #[test]
    fn title_blocks_hold_any_text(
        project in "[A-Za-zÄ-ü0-9 ]{1,60}",
        name in "[A-Za-z ,×]{1,70}",
        scale in "[0-9 :a-z]{0,40}",
    ) {
        let block = TitleBlock { scale, ..title(&project, &name) };
        for paper in [Paper::A4, Paper::Letter] {
            let sheet = TitleBlock { paper, ..block.clone() }.sheet();
            prop_assert_eq!(sheet.collisions(), []);
        }
    }

    #[test]
    fn promises_and_findings_hold_any_text(
        names in proptest::collection::vec(
            ("[A-Za-z]{1,12}", "[0-9.,−]{1,9}", "[a-zA-Z€%]{0,6}", "[a-z ]{0,60}", "[a-z0-9 ]{0,60}"),
            1..7,
        ),
        numbers in (0.0_f64..100.0, 0.0_f64..100.0, 0.0_f64..100.0),
    ) {
        let promises: Vec<Promise> = names
            .iter()
            .map(|(name, value, unit, about, odds)| Promise {
                name: name.clone(),
                value: value.clone(),
                unit: unit.clone(),
                about: about.clone(),
                number: numbers.0,
                band: Some((numbers.1, numbers.2)),
                target: Some(numbers.2),
                state: Some(Severity::Caution),
                odds: odds.clone(),
            })
            .collect();
        let findings: Vec<FindingBlock> = names
            .iter()
            .map(|(name, value, unit, about, odds)| FindingBlock {
                severity: Severity::Stop,
                title: name.clone(),
                cause: about.clone(),
                measured: format!("{value} {unit}"),
                mend: odds.clone(),
            })
            .collect();
        let mut sheet = Sheet::sized(280.0, 1000.0, "t");
        let strip = PromiseStrip { promises };
        let mut blocks: Vec<Box<dyn Block>> = vec![Box::new(strip)];
        blocks.extend(findings.into_iter().map(|f| Box::new(f) as Box<dyn Block>));
        let (drawing, _) = stacked(&blocks, Point::new(5.0, 5.0), 270.0);
        sheet.drawing.append(drawing);
        prop_assert_eq!(sheet.collisions(), []);
    }

    #[test]
    fn flowed_tables_stay_in_their_columns(rows in 1_usize..80, columns in 1_usize..4) {
        let area = Rect::new(10.0, 10.0, 180.0, 70.0);
        let pages = flow(&[Box::new(table(rows))], area, columns, 6.0);
        let mut seen = 0;
        for page in pages {
            let mut sheet = Sheet::sized(200.0, 90.0, "t");
            seen += page.items.iter().filter(|i| matches!(i, crate::sheet::Item::Text(t)
                if t.content.starts_with("part "))).count();
            let bounds = page.bounds().unwrap();
            // Letters reach a little above the height of a capital.
            prop_assert!(area.inset(-0.2).contains(&bounds), "{:?}", bounds);
            sheet.drawing = page;
            prop_assert_eq!(sheet.collisions(), []);
        }
        prop_assert_eq!(seen, rows);
    }
}
