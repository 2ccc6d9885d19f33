//! `boxwright pack`.

use super::Ending;
use super::check::{compared, ending, texts};
use super::workshop;
use crate::cli::{PackArgs, PaperSize};
use crate::failure::{Failure, Project};
use crate::folder::Staged;
use crate::{calendar, csv, files, json, say, terminal};
use drawings::{Date, Paper, Sheet, Theme, export};
use std::ffi::OsStr;
use std::fs;
use std::path::{Path, PathBuf};
use studies::Report;
use studies::check::Severity;

const PDF: &str = "pack.pdf";
const CHECK: &str = "check.json";
const ACCOUNTS: &str = "accounts.csv";
const SHOPPING: &str = "shopping.csv";
const SHEETS: &str = "sheets";
const CURVES: &str = "curves";

/// Everything a pack puts into its folder; what an earlier one left there gives way.
const NAMES: [&str; 9] = [
    PDF,
    workshop::TEMPLATES,
    CHECK,
    ACCOUNTS,
    SHOPPING,
    SHEETS,
    CURVES,
    workshop::CUT,
    workshop::SOLID,
];

pub(crate) fn run(args: &PackArgs, as_json: bool) -> Result<Ending, Failure> {
    let out = match &args.out {
        Some(out) => out.clone(),
        None => beside(&files::design_path(&args.design.design)),
    };
    must_be_ours(&out)?;
    let project = files::project(&args.design)?;
    let (project, report) = compared(project, args.builds)?;
    let date = calendar::today();
    let paper = paper(args.paper);
    let sheets = sheets(&project, &report, paper, date)?;
    let templates = workshop::templates(&report, paper, date);
    let mut files = contents(&sheets, &report, date)?;
    files.extend(workshop::files(&report, &templates, date)?);
    let folder = Staged::new(&out)?;
    for (name, bytes) in &files {
        folder.add(name, bytes)?;
    }
    folder.finish(&NAMES)?;
    let names: Vec<&str> = files.iter().map(|(name, _)| name.as_str()).collect();
    let answer = if as_json {
        written(&out, &names)
    } else {
        let pages = [sheets.len(), templates.len()];
        say::packed(&out, pages, &names, stops(&report), terminal::ink())
    };
    terminal::say(&answer)?;
    Ok(ending(&report))
}

/// The folder for a pack beside its design: `box-pack` for `box.toml`, and
/// also for `box/design.toml`.
fn beside(design: &Path) -> PathBuf {
    let stem = design.file_stem().unwrap_or_default();
    let whole = fs::canonicalize(design).unwrap_or_else(|_| design.to_owned());
    let folder = whole.parent().and_then(Path::file_name);
    let name = match folder {
        Some(folder) if design.file_name() == Some(OsStr::new(files::DESIGN)) => folder,
        _ => stem,
    };
    design.with_file_name(format!("{}-pack", name.to_string_lossy()))
}

/// A folder that holds something of the same names must be an earlier pack.
fn must_be_ours(out: &Path) -> Result<(), Failure> {
    let taken = NAMES.iter().any(|name| out.join(name).exists());
    let ours = fs::read_to_string(out.join(CHECK)).is_ok_and(|text| text.contains("\"boxwright\""));
    if taken && !ours {
        return Err(Failure::mended(
            format!(
                "{} holds files that are no pack and stay as they are",
                out.display()
            ),
            "name another folder with --out",
        ));
    }
    Ok(())
}

const fn paper(size: PaperSize) -> Paper {
    match size {
        PaperSize::A4 => Paper::A4,
        PaperSize::Letter => Paper::Letter,
    }
}

fn sheets(
    project: &Project,
    report: &Report,
    paper: Paper,
    date: Option<Date>,
) -> Result<Vec<Sheet>, Failure> {
    let texts = texts(project);
    let read = design::read(texts.design, texts.shelf)
        .map_err(|found| Failure::Texts(Box::new(project.clone()), found))?;
    Ok(drawings::pack::pack(&read, report, paper, date))
}

/// Every file of the pack with its name.
fn contents(
    sheets: &[Sheet],
    report: &Report,
    date: Option<Date>,
) -> Result<Vec<(String, Vec<u8>)>, Failure> {
    let pdf = export::pdf::pdf(sheets, &report.name, date, Theme::Paper)
        .map_err(|error| Failure::plain(error.to_string()))?;
    let svgs = sheets.iter().enumerate().map(|(index, sheet)| {
        (
            sheet_name(index, sheet),
            export::svg::svg(sheet, Theme::Paper),
        )
    });
    let curves = report
        .curves
        .iter()
        .map(|curve| (format!("{CURVES}/{}.csv", curve.id), csv::curve(curve)));
    let texts = svgs
        .chain(curves)
        .map(|(name, text)| (name, text.into_bytes()));
    Ok(std::iter::once((PDF.to_owned(), pdf))
        .chain(texts)
        .chain(tables(report))
        .collect())
}

/// What the studies found, as tables and for other programs.
pub(crate) fn tables(report: &Report) -> impl Iterator<Item = (String, Vec<u8>)> {
    let texts = [
        (CHECK.to_owned(), json::check(report)),
        (
            format!("{CURVES}/discharge.csv"),
            csv::discharge(&report.discharge),
        ),
        (
            ACCOUNTS.to_owned(),
            csv::accounts(&report.accounts, &report.money),
        ),
        (SHOPPING.to_owned(), csv::shopping(&report.money)),
    ];
    texts
        .into_iter()
        .map(|(name, text)| (name, text.into_bytes()))
}

/// A file name that sorts like the sheets and tells what is on them.
fn sheet_name(index: usize, sheet: &Sheet) -> String {
    format!("{SHEETS}/{:02}-{}.svg", index + 1, slug(&sheet.title))
}

/// A text as a part of a file name: small letters, digits and dashes.
pub(crate) fn slug(text: &str) -> String {
    let plain: String = text
        .to_lowercase()
        .chars()
        .map(|c| if c.is_ascii_alphanumeric() { c } else { '-' })
        .collect();
    let words: Vec<&str> = plain.split('-').filter(|word| !word.is_empty()).collect();
    words.join("-")
}

/// The folder, then every file in it.
fn written(out: &Path, names: &[&str]) -> String {
    let files = names.iter().map(|name| out.join(name));
    let paths: Vec<PathBuf> = std::iter::once(out.to_owned()).chain(files).collect();
    json::written(&paths)
}

fn stops(report: &Report) -> usize {
    let is_stop = |finding: &&studies::check::Finding| finding.severity == Severity::Stop;
    report.findings.iter().filter(is_stop).count()
}
