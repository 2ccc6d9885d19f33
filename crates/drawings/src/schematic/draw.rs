//! Laying out and drawing.

use super::lead::{COMPARATOR, Kit, Lead};
use super::strand::strokes;
use super::symbol::Pen;
use super::{Face, Net, Part, Schematic, Symbol, Wire};
use crate::geometry::{Point, Rect};
use crate::path::Path;
use crate::role::Role;
use crate::sheet::{Anchor, Drawing, Stroke, Style, Text, pen};
use wiring::diagram::{Circuit, Member, Page, Pin, Placed, PlacedPort, Rules, pages};

/// Greatest size of a unit in mm; letters are 2 units high, and a unit is 1 mm at least.
const LARGEST: f64 = 1.25;

/// One drawing of a schematic.
#[derive(Clone, Debug, PartialEq)]
pub struct SchematicSheet {
    /// What is drawn, within the area.
    pub drawing: Drawing,
    /// Parts that stand on it, by their place in the list.
    pub parts: Vec<usize>,
    /// How often lines cross.
    pub crossings: usize,
    /// Wires that lead, but from the right to the left.
    pub back: Vec<String>,
}

/// The schematic within an area, on as few drawings as letters of 2 mm allow, and as
/// large as it can be on those; several refer to one another.
#[must_use]
pub fn sheets(schematic: &Schematic, area: Rect) -> Vec<SchematicSheet> {
    let laid = laid_out(schematic, Kit { k: 1.0 }, area);
    let room = laid.iter().map(|page| {
        let [w, h] = page.diagram.size;
        (area.w / w.max(1.0)).min(area.h / h.max(1.0))
    });
    let k = room.fold(LARGEST, f64::min).max(1.0);
    drawn(schematic, Kit { k }, &laid, area)
}

fn laid_out(schematic: &Schematic, kit: Kit, area: Rect) -> Vec<Page> {
    let mut labels: Vec<Vec<f64>> = (schematic.parts.iter())
        .map(|p| vec![0.0; p.terminals.len()])
        .collect();
    for (part, terminal, text) in schematic.nets.iter().flat_map(|n| &n.ends) {
        labels[*part][*terminal] = kit.label(text);
    }
    let blocks = schematic.parts.iter().zip(&labels);
    let circuit = Circuit {
        blocks: blocks.map(|(p, l)| kit.block(p, l)).collect(),
        nets: schematic.nets.iter().map(layout_net).collect(),
    };
    let rules = Rules {
        step: kit.step(),
        track: 2.2 * kit.k,
        stub: 1.0 * kit.k,
        label: 2.2 * kit.k,
        room: [area.w, area.h],
    };
    let names = schematic.nets.iter().map(|n| {
        let all = n.wires.iter().map(|w| w.name.as_str());
        kit.text().width(&flag_text(n, &all.collect::<Vec<_>>(), 9))
    });
    let flag = names.fold(0.0, f64::max) + 4.0 * kit.k;
    pages(&circuit, &rules, [flag, 2.0 * kit.step()])
}

fn layout_net(net: &Net) -> wiring::diagram::Net {
    let pins = net.ends.iter().map(|(block, port, _)| Pin {
        block: *block,
        port: *port,
    });
    wiring::diagram::Net {
        pins: pins.collect(),
        leads: net.leads,
        alike: matches!(&net.ends[..], [a, b] if a.2 == b.2),
    }
}

/// The wires that go on elsewhere, or the net where none is known, and where.
fn flag_text(net: &Net, wires: &[&str], sheet: usize) -> String {
    match wires.is_empty() {
        true => format!("{} · part {sheet}", net.name),
        false => format!("{} · part {sheet}", wires.join(" ")),
    }
}

fn drawn(schematic: &Schematic, kit: Kit, laid: &[Page], area: Rect) -> Vec<SchematicSheet> {
    let homes = |net: usize, here: usize| {
        let shows = |page: &Page| page.nets.contains(&net);
        let others = laid
            .iter()
            .enumerate()
            .filter(move |(i, p)| *i != here && shows(p));
        others.map(|(i, _)| i).collect::<Vec<_>>()
    };
    let home = |part: usize| {
        let stands = |page: &Page| page.members.contains(&Member::Block(part));
        laid.iter().position(stands).unwrap_or(0)
    };
    let home: Vec<usize> = (0..schematic.parts.len()).map(home).collect();
    let pages = laid.iter().enumerate();
    pages
        .map(|(here, page)| {
            let [w, h] = page.diagram.size.map(|mm| kit.k * mm);
            let mut sheet = SheetPen {
                schematic,
                kit,
                page,
                here,
                home: &home,
                origin: Point::new(
                    area.x + ((area.w - w) / 2.0).max(0.0),
                    area.y + ((area.h - h) / 2.0).max(0.0),
                ),
                out: Drawing::default(),
            };
            sheet.nets();
            let mut parts = Vec::new();
            for (place, member) in page.members.iter().enumerate() {
                match member {
                    Member::Block(part) => {
                        sheet.part(&schematic.parts[*part], place);
                        parts.push(*part);
                    }
                    Member::Flag { net, onward } => {
                        let homes = homes(*net, here);
                        let to = match onward {
                            true => homes.iter().find(|p| **p > here),
                            false => homes.iter().rev().find(|p| **p < here),
                        };
                        let to = to.or(homes.first()).map_or(1, |p| p + 1);
                        sheet.flag(&schematic.nets[*net], *onward, to, place);
                    }
                }
            }
            sheet.labels();
            let back = sheet.back();
            SchematicSheet {
                drawing: sheet.out,
                parts,
                crossings: page.diagram.crossings,
                back,
            }
        })
        .collect()
}

/// One page under the pen.
struct SheetPen<'a> {
    schematic: &'a Schematic,
    kit: Kit,
    page: &'a Page,
    /// Its place among the pages, and the page of every part. The layout is in units.
    here: usize,
    home: &'a [usize],
    origin: Point,
    out: Drawing,
}

impl SheetPen<'_> {
    fn at(&self, [x, y]: [f64; 2]) -> Point {
        self.origin.moved(self.kit.k * x, self.kit.k * y)
    }

    fn nets(&mut self) {
        for (own, drawn) in self.page.nets.iter().zip(&self.page.diagram.nets) {
            let net = &self.schematic.nets[*own];
            let strokes = strokes(&drawn.runs, net.stroke, &net.wires, |wire, end| {
                self.end(*own, net.ends[wire.ends[end]].0, net.ends[wire.ends[end]].1)
            });
            for (run, stroke) in drawn.runs.iter().zip(&strokes) {
                let points: Vec<Point> = run.iter().map(|p| self.at(*p)).collect();
                self.out.polyline(&points, *stroke);
            }
            let alike = strokes.iter().all(|s| s.role == net.stroke.role);
            let role = if alike { net.stroke.role } else { Role::Ink };
            for dot in &drawn.dots {
                let at = self.at(*dot);
                self.out.circle(at, 0.55 * self.kit.k, Style::filled(role));
            }
        }
    }

    fn end(&self, net: usize, part: usize, terminal: usize) -> Option<[f64; 2]> {
        Some(self.port(net, part, terminal)?.at)
    }

    /// Where an end of a net is on this page: its terminal, or the flag that leads there.
    fn port(&self, net: usize, part: usize, terminal: usize) -> Option<&PlacedPort> {
        let onward = self.home[part] > self.here;
        let (wanted, port) = match self.home[part] == self.here {
            true => (Member::Block(part), terminal),
            false => (Member::Flag { net, onward }, 0),
        };
        let place = self.page.members.iter().position(|m| *m == wanted)?;
        let ports = &self.page.diagram.blocks[place].ports;
        ports.get(port)
    }

    /// Wires of nets that lead whose giving end stands right of the taking one.
    fn back(&self) -> Vec<String> {
        let mut out = Vec::new();
        for own in &self.page.nets {
            let net = &self.schematic.nets[*own];
            let ends = |wire: &Wire| {
                wire.ends
                    .map(|end| self.port(*own, net.ends[end].0, net.ends[end].1))
            };
            let backward = |wire: &&Wire| match ends(wire) {
                [Some(a), Some(b)] if a.face != b.face => {
                    let (gives, takes) = if a.face == Face::Right {
                        (a, b)
                    } else {
                        (b, a)
                    };
                    takes.at[0] <= gives.at[0]
                }
                _ => false,
            };
            if net.leads {
                out.extend(net.wires.iter().filter(backward).map(|w| w.name.clone()));
            }
        }
        out
    }

    fn labels(&mut self) {
        for label in &self.page.diagram.labels {
            let Member::Block(part) = self.page.members[label.pin.block] else {
                continue;
            };
            let mut ends = self.page.nets.iter().flat_map(|n| {
                let net = &self.schematic.nets[*n];
                net.ends.iter().map(move |e| (net, e))
            });
            let own = ends.find(|(_, e)| (e.0, e.1) == (part, label.pin.port));
            let Some((_, (_, _, text))) = own else {
                continue;
            };
            let middle = self.at([
                label.at[0] + label.size[0] / 2.0,
                label.at[1] + label.size[1] - 0.5,
            ]);
            let text = Text::new(middle, text, self.kit.text());
            self.out.text(text.anchored(Anchor::Middle));
        }
    }

    fn placed(&self, place: usize) -> (&Placed, Rect) {
        let placed = &self.page.diagram.blocks[place];
        let size = self.page.circuit.blocks[place].size.map(|u| self.kit.k * u);
        let at = self.at(placed.at);
        (placed, Rect::new(at.x, at.y, size[0], size[1]))
    }

    fn leads(&self, placed: &Placed) -> Vec<Lead> {
        let ports = placed.ports.iter().map(|p| Lead {
            at: self.at(p.at),
            left: p.face == Face::Left,
        });
        ports.collect()
    }

    fn part(&mut self, part: &Part, place: usize) {
        let (placed, whole) = self.placed(place);
        let leads = self.leads(placed);
        match part.symbol {
            Symbol::Block | Symbol::Strip => self.boxed(part, whole, &leads),
            _ => self.symbol(part, place, whole, &leads),
        }
    }

    /// A rectangle with its name on top and its terminals' names within.
    fn boxed(&mut self, part: &Part, whole: Rect, leads: &[Lead]) {
        let k = self.kit.k;
        let edge = Stroke::new(Role::Ink, pen::BOLD);
        self.out.rect(whole, Style::filled(Role::Tint).edged(edge));
        let middle = Point::new(whole.centre().x, whole.y + 0.7 * k);
        let name = self.kit.name();
        let at = middle.moved(0.0, name.cap_height() + 0.3 * k);
        self.out
            .text(Text::new(at, &part.name, name).anchored(Anchor::Middle));
        if !part.note.is_empty() {
            let at = Point::new(middle.x, whole.bottom() - 0.9 * k);
            let note = Text::new(at, &part.note, self.kit.text()).anchored(Anchor::Middle);
            self.out.text(note.coloured(Role::Muted));
        }
        for (lead, terminal) in leads.iter().zip(&part.terminals) {
            let inward = if lead.left { 1.0 } else { -1.0 };
            let dot = lead.at;
            let fill = if part.symbol == Symbol::Strip {
                Role::Ink
            } else {
                Role::Paper
            };
            let ring = Style::filled(fill).edged(Stroke::new(Role::Ink, pen::MEDIUM));
            self.out.circle(dot, 0.5 * k, ring);
            let anchor = if lead.left {
                Anchor::Start
            } else {
                Anchor::End
            };
            let at = dot.moved(inward * 1.2 * k, 0.0);
            let text = Text::new(at, &terminal.name, self.kit.text()).anchored(anchor);
            self.out.text(text.centred());
        }
    }

    fn symbol(&mut self, part: &Part, place: usize, whole: Rect, leads: &[Lead]) {
        let kit = self.kit;
        let k = kit.k;
        let block = &self.page.circuit.blocks[place];
        let level = whole.y + k * block.middle;
        let (width, _) = kit.widths(part);
        let ports = leads.iter().map(|l| l.at.y);
        let (low, high) = ports.fold((level, level), |(l, h), y| (l.min(y), h.max(y)));
        let height = match part.symbol.body() {
            Some([_, h]) => h * k,
            None => high - low + (2.0 + COMPARATOR) * kit.step(),
        };
        let x = match Kit::one_sided(part) {
            true if leads.first().is_some_and(|l| l.left) => whole.x + kit.lead(part),
            true => whole.right() - kit.lead(part) - width,
            false => whole.centre().x - width / 2.0,
        };
        let body = Rect::new(x, level - height / 2.0, width, height);
        Pen {
            body,
            leads,
            k,
            out: &mut self.out,
        }
        .draw(part.symbol);
        let middle = whole.centre().x;
        let top = Point::new(middle, whole.y + kit.name().cap_height() + 0.2 * k);
        self.out
            .text(Text::new(top, &part.name, kit.name()).anchored(Anchor::Middle));
        let foot = Point::new(middle, whole.bottom() - 0.6 * k);
        let note = Text::new(foot, &part.note, kit.text()).anchored(Anchor::Middle);
        self.out.text(note.coloured(Role::Muted));
        for (lead, terminal) in leads.iter().zip(&part.terminals) {
            self.terminal(part, lead, &terminal.name, body);
        }
    }

    /// The name of a terminal: in a comparator, else above its lead.
    fn terminal(&mut self, part: &Part, lead: &Lead, name: &str, body: Rect) {
        let k = self.kit.k;
        if part.symbol == Symbol::Comparator {
            if lead.left {
                let at = Point::new(body.x + 0.9 * k, lead.at.y);
                self.out
                    .text(Text::new(at, name, self.kit.text()).centred());
            }
            return;
        }
        let (dx, anchor) = if lead.left {
            (0.4, Anchor::Start)
        } else {
            (-0.4, Anchor::End)
        };
        let at = lead.at.moved(dx * k, -0.5 * k);
        let text = Text::new(at, name, self.kit.text()).anchored(anchor);
        self.out.text(text.coloured(Role::Muted));
    }

    /// Where a net goes on.
    fn flag(&mut self, net: &Net, onward: bool, to: usize, place: usize) {
        let k = self.kit.k;
        let beyond = |end: usize| match onward {
            true => self.home[net.ends[end].0] > self.here,
            false => self.home[net.ends[end].0] < self.here,
        };
        let through = net.wires.iter().filter(|w| {
            let [a, b] = w.ends.map(beyond);
            a != b
        });
        let names: Vec<&str> = through.map(|w| w.name.as_str()).collect();
        let (placed, whole) = self.placed(place);
        let Some(lead) = self.leads(placed).first().copied() else {
            return;
        };
        let half = 0.42 * whole.h;
        let (near, far) = if lead.left {
            (whole.x, whole.right())
        } else {
            (whole.right(), whole.x)
        };
        let nick = if lead.left { -1.6 * k } else { 1.6 * k };
        let y = lead.at.y;
        let points = [
            Point::new(near, y - half),
            Point::new(far + nick, y - half),
            Point::new(far, y),
            Point::new(far + nick, y + half),
            Point::new(near, y + half),
        ];
        let style = Style::filled(Role::Paper).edged(Stroke::new(Role::Ink, pen::THIN));
        self.out.path(Path::polygon(&points), style);
        let at = Point::new((near + far + nick) / 2.0, y);
        let text = Text::new(at, &flag_text(net, &names, to), self.kit.text());
        self.out.text(text.anchored(Anchor::Middle).centred());
    }
}
