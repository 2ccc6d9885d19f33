//! `boxwright pack`.

use super::Ending;
use super::check::{ending, studied, texts};
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
const SHEETS: &str = "sheets";
const CURVES: &str = "curves";

pub(crate) fn run(args: &PackArgs, as_json: bool) -> Result<Ending, Failure> {
    let out = match &args.out {
        Some(out) => out.clone(),
        None => beside(&files::design_path(&args.design.design)),
    };
    must_be_ours(&out)?;
    let project = files::project(&args.design)?;
    let (project, report) = studied(project, args.builds)?;
    let date = calendar::today();
    let sheets = sheets(&project, &report, args.paper, date)?;
    let folder = Staged::new(&out)?;
    for (name, bytes) in contents(&sheets, &report, date)? {
        folder.add(&name, &bytes)?;
    }
    folder.finish()?;
    terminal::say(&answer(&out, &sheets, &report, as_json))?;
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
    let taken = [PDF, CHECK, ACCOUNTS, SHEETS, CURVES]
        .iter()
        .any(|name| out.join(name).exists());
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

fn sheets(
    project: &Project,
    report: &Report,
    paper: PaperSize,
    date: Option<Date>,
) -> Result<Vec<Sheet>, Failure> {
    let texts = texts(project);
    let read = design::read(texts.design, texts.shelf)
        .map_err(|found| Failure::Texts(Box::new(project.clone()), found))?;
    let paper = match paper {
        PaperSize::A4 => Paper::A4,
        PaperSize::Letter => Paper::Letter,
    };
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
    let rest = [
        (CHECK.to_owned(), json::check(report)),
        (
            format!("{CURVES}/discharge.csv"),
            csv::discharge(&report.discharge),
        ),
        (
            ACCOUNTS.to_owned(),
            csv::accounts(&report.accounts, currency(report)),
        ),
    ];
    let texts = svgs.chain(curves).chain(rest);
    Ok(std::iter::once((PDF.to_owned(), pdf))
        .chain(texts.map(|(name, text)| (name, text.into_bytes())))
        .collect())
}

/// The currency costs are counted in.
fn currency(report: &Report) -> &str {
    let cost = report.promises.iter().find(|promise| promise.id == "cost");
    cost.map_or("", |promise| &promise.unit)
}

/// A file name that sorts like the sheets and tells what is on them.
fn sheet_name(index: usize, sheet: &Sheet) -> String {
    let slug: String = sheet
        .title
        .to_lowercase()
        .chars()
        .map(|c| if c.is_ascii_alphanumeric() { c } else { '-' })
        .collect();
    let words: Vec<&str> = slug.split('-').filter(|word| !word.is_empty()).collect();
    format!("{SHEETS}/{:02}-{}.svg", index + 1, words.join("-"))
}

fn answer(out: &Path, sheets: &[Sheet], report: &Report, as_json: bool) -> String {
    if as_json {
        let paths: [PathBuf; 1] = [out.to_owned()];
        return json::written(&paths);
    }
    let is_stop = |finding: &&studies::check::Finding| finding.severity == Severity::Stop;
    let stops = report.findings.iter().filter(is_stop).count();
    say::packed(out, sheets.len(), stops, terminal::ink())
}
