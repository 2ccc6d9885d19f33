//! The symbols of the trade (`iec-60617`), drawn between their leads.

use super::lead::Lead;
use crate::geometry::{Point, Rect};
use crate::path::Path;
use crate::role::Role;
use crate::sheet::{Drawing, Stroke, Style, pen};

/// How a part is drawn; terminals are in the order said here.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Symbol {
    /// A named rectangle with as many terminals as there are.
    Block,
    /// A strip on which all terminals are joined.
    Strip,
    /// A battery: plus, minus.
    Battery,
    /// A fuse: two ends.
    Fuse,
    /// A contact that closes: two ends.
    Contact,
    /// Changeover contacts of several poles: for each its common end, then two throws.
    Changeover,
    /// A resistor: two ends.
    Resistor,
    /// A resistor with a slider: its ends and the slider between them, pole after pole.
    Slider,
    /// A capacitor: two ends.
    Capacitor,
    /// A lamp: two ends.
    Lamp,
    /// A light-emitting diode: anode, cathode.
    Led,
    /// A diode: anode, cathode.
    Diode,
    /// A Zener diode: anode, cathode.
    Zener,
    /// A coil of a relay: two ends.
    Coil,
    /// A comparator or operational amplifier: inputs and supply left, output right.
    Comparator,
    /// An n-channel transistor: gate, drain, source.
    Mosfet,
    /// The same with a P-channel.
    MosfetP,
    /// A loudspeaker: plus, minus.
    Loudspeaker,
    /// Ground: one end.
    Ground,
    /// A terminal standing alone: one end.
    Point,
}

impl Symbol {
    /// Width and height of what is drawn between the leads, in units of the drawing
    /// that are 1 mm at its least size; `None` for what grows with its terminals.
    pub(super) const fn body(self) -> Option<[f64; 2]> {
        match self {
            Self::Block | Self::Strip | Self::Comparator => None,
            Self::Battery => Some([6.0, 8.0]),
            Self::Fuse | Self::Resistor => Some([7.0, 2.6]),
            Self::Contact => Some([6.0, 4.0]),
            Self::Changeover => Some([8.0, 10.0]),
            Self::Slider => Some([6.0, 9.0]),
            Self::Capacitor => Some([1.4, 4.4]),
            Self::Lamp => Some([4.6, 4.6]),
            Self::Led => Some([4.0, 6.4]),
            Self::Diode | Self::Zener => Some([3.4, 3.6]),
            Self::Coil => Some([3.0, 5.6]),
            Self::Mosfet | Self::MosfetP => Some([5.0, 8.0]),
            Self::Loudspeaker => Some([5.0, 8.0]),
            Self::Ground => Some([3.0, 4.0]),
            Self::Point => Some([1.4, 1.4]),
        }
    }
}

/// A symbol under the pen.
pub(super) struct Pen<'a> {
    /// What is drawn between the leads.
    pub(super) body: Rect,
    /// Leads of the terminals, in their order.
    pub(super) leads: &'a [Lead],
    /// Size of a unit in mm.
    pub(super) k: f64,
    pub(super) out: &'a mut Drawing,
}

const LINE: Stroke = Stroke::new(Role::Ink, pen::MEDIUM);

impl Pen<'_> {
    pub(super) fn draw(&mut self, symbol: Symbol) {
        match symbol {
            Symbol::Block | Symbol::Strip => {}
            Symbol::Battery => self.battery(),
            Symbol::Fuse => self.fuse(),
            Symbol::Contact => self.contact(),
            Symbol::Changeover => self.changeover(),
            Symbol::Resistor => self.rectangle(),
            Symbol::Slider => self.slider(),
            Symbol::Capacitor => self.capacitor(),
            Symbol::Lamp => self.lamp(),
            Symbol::Led => self.led(),
            Symbol::Diode => self.diode(0.0),
            Symbol::Zener => self.diode(0.8),
            Symbol::Coil => self.rectangle(),
            Symbol::Comparator => self.comparator(),
            Symbol::Mosfet => self.mosfet(false),
            Symbol::MosfetP => self.mosfet(true),
            Symbol::Loudspeaker => self.loudspeaker(),
            Symbol::Ground => self.ground(),
            Symbol::Point => self.point(),
        }
    }

    fn line(&mut self, points: &[Point]) {
        self.out.polyline(points, LINE);
    }

    fn open_circle(&mut self, at: Point) {
        let style = Style::filled(Role::Paper).edged(LINE);
        self.out.circle(at, 0.55 * self.k, style);
    }

    fn solid(&mut self, points: &[Point]) {
        self.out
            .polygon(points, Style::filled(Role::Ink).edged(LINE));
    }

    /// Draws every lead to the edge of the body.
    fn leads_in(&mut self) {
        for lead in self.leads {
            let x = if lead.left {
                self.body.x
            } else {
                self.body.right()
            };
            self.line(&[lead.at, Point::new(x, lead.at.y)]);
        }
    }

    fn rectangle(&mut self) {
        self.leads_in();
        self.out
            .rect(self.body, Style::filled(Role::Paper).edged(LINE));
    }

    fn fuse(&mut self) {
        self.rectangle();
        let y = self.body.centre().y;
        self.line(&[Point::new(self.body.x, y), Point::new(self.body.right(), y)]);
    }

    /// Long plate plus, short plate minus, one above the other.
    fn battery(&mut self) {
        let (k, c) = (self.k, self.body.centre());
        for (lead, off, half) in [(0, -0.7, 2.8), (1, 0.7, 1.5)] {
            let y = c.y + off * k;
            self.line(&[c.moved(-half * k, off * k), c.moved(half * k, off * k)]);
            if let Some(lead) = self.leads.get(lead) {
                self.line(&[lead.at, Point::new(c.x, lead.at.y), Point::new(c.x, y)]);
            }
        }
        let wide = Stroke::new(Role::Ink, 0.7 * k);
        self.out
            .line(c.moved(-1.5 * k, 0.7 * k), c.moved(1.5 * k, 0.7 * k), wide);
    }

    fn contact(&mut self) {
        self.leads_in();
        let y = self.leads.first().map_or(self.body.centre().y, |l| l.at.y);
        let [a, b] = [self.body.x, self.body.right()].map(|x| Point::new(x, y));
        self.line(&[a, b.moved(-0.4 * self.k, -1.9 * self.k)]);
        self.open_circle(a);
        self.open_circle(b);
    }

    /// Levers at rest on the first throw of each pole, joined by a dashed line.
    fn changeover(&mut self) {
        self.leads_in();
        let ends: Vec<Point> = (self.leads.iter())
            .map(|l| {
                Point::new(
                    if l.left {
                        self.body.x
                    } else {
                        self.body.right()
                    },
                    l.at.y,
                )
            })
            .collect();
        let mut middles = Vec::new();
        for pole in ends.chunks(3) {
            if let [common, first, ..] = pole {
                self.line(&[*common, *first]);
                middles.push(common.towards(*first, 0.5));
            }
        }
        if let [top, .., last] = middles[..] {
            let link = Stroke::new(Role::Muted, pen::THIN).dashed(crate::sheet::Dash::Short);
            self.out.line(top, last, link);
        }
        for end in ends {
            self.open_circle(end);
        }
    }

    /// Each pole an upright resistor, its ends led in from the left, its slider from the right.
    fn slider(&mut self) {
        let k = self.k;
        let leads = self.leads;
        for pole in leads.chunks(3) {
            let [top, slide, low] = pole else { continue };
            let x = self.body.centre().x - 0.6 * k;
            let (high, deep) = (top.at.y.min(low.at.y), top.at.y.max(low.at.y));
            let rect = Rect::new(x - 1.1 * k, high + 0.4 * k, 2.2 * k, deep - high - 0.8 * k);
            for end in [top, low] {
                let to = if end.at.y == high {
                    rect.y
                } else {
                    rect.bottom()
                };
                self.line(&[end.at, Point::new(x, end.at.y), Point::new(x, to)]);
            }
            self.out.rect(rect, Style::filled(Role::Paper).edged(LINE));
            let tip = Point::new(rect.right(), rect.centre().y);
            let bend = Point::new(self.body.right(), tip.y);
            self.line(&[slide.at, Point::new(bend.x, slide.at.y), bend, tip]);
            let back = tip.moved(1.2 * k, 0.0);
            self.solid(&[tip, back.moved(0.0, -0.6 * k), back.moved(0.0, 0.6 * k)]);
        }
    }

    fn capacitor(&mut self) {
        self.leads_in();
        let [a, b, c, d] = self.body.corners();
        self.line(&[a, d]);
        self.line(&[b, c]);
    }

    fn lamp(&mut self) {
        self.leads_in();
        let (c, r) = (self.body.centre(), self.body.w / 2.0);
        self.out
            .circle(c, r, Style::filled(Role::Paper).edged(LINE));
        let d = r * core::f64::consts::FRAC_1_SQRT_2;
        self.line(&[c.moved(-d, -d), c.moved(d, d)]);
        self.line(&[c.moved(-d, d), c.moved(d, -d)]);
    }

    /// Triangle towards the cathode, with a bar whose ends are bent by so much.
    fn diode(&mut self, bent: f64) {
        let k = self.k;
        let c = Point::new(
            self.body.centre().x,
            self.leads.first().map_or(self.body.centre().y, |l| l.at.y),
        );
        for lead in self.leads {
            self.line(&[lead.at, c]);
        }
        // Where the anode comes from the right, everything is turned round.
        let way = if self.leads.first().is_none_or(|l| l.left) {
            1.0
        } else {
            -1.0
        };
        let at = |x: f64, y: f64| c.moved(way * x * k, y * k);
        self.solid(&[at(-1.6, -1.7), at(-1.6, 1.7), at(1.6, 0.0)]);
        self.line(&[
            at(1.6 - bent, -1.7),
            at(1.6, -1.7),
            at(1.6, 1.7),
            at(1.6 + bent, 1.7),
        ]);
    }

    fn led(&mut self) {
        self.diode(0.0);
        let k = self.k;
        let y = self.leads.first().map_or(self.body.centre().y, |l| l.at.y);
        let c = Point::new(self.body.centre().x, y);
        for off in [-0.9, 0.6] {
            let from = c.moved(off * k, -2.0 * k);
            let tip = from.moved(1.2 * k, -1.2 * k);
            self.line(&[from, tip]);
            self.solid(&[
                tip,
                tip.moved(-0.8 * k, 0.2 * k),
                tip.moved(-0.2 * k, 0.8 * k),
            ]);
        }
    }

    fn comparator(&mut self) {
        let r = self.body;
        let tip = Point::new(r.right(), r.centre().y);
        for lead in self.leads {
            let to = if lead.left {
                Point::new(r.x, lead.at.y)
            } else {
                tip
            };
            self.line(&[lead.at, Point::new(to.x, lead.at.y), to]);
        }
        let corners = [Point::new(r.x, r.y), tip, Point::new(r.x, r.bottom())];
        self.out
            .polygon(&corners, Style::filled(Role::Paper).edged(LINE));
    }

    /// Gate left; drain above, source below, on the right. The arrow leaves a P-channel.
    fn mosfet(&mut self, p_channel: bool) {
        let k = self.k;
        let c = self.body.centre();
        let [gate, drain, source] = self.leads else {
            return;
        };
        let bar = c.moved(-k, 0.0);
        self.line(&[gate.at, Point::new(bar.x, gate.at.y)]);
        self.line(&[bar.moved(0.0, -2.0 * k), bar.moved(0.0, 2.0 * k)]);
        let channel = bar.x + 0.7 * k;
        for y in [-1.7, 0.0, 1.7] {
            let at = Point::new(channel, c.y + y * k);
            self.line(&[at.moved(0.0, -0.5 * k), at.moved(0.0, 0.5 * k)]);
        }
        let x = self.body.right() - 1.2 * k;
        for (lead, off) in [(drain, -1.7), (source, 1.7)] {
            let y = c.y + off * k;
            self.line(&[
                lead.at,
                Point::new(x, lead.at.y),
                Point::new(x, y),
                Point::new(channel, y),
            ]);
        }
        let inner = Point::new(channel, c.y);
        self.line(&[inner, Point::new(x, c.y), Point::new(x, c.y + 1.7 * k)]);
        let outer = inner.moved(1.1 * k, 0.0);
        let [tip, back] = if p_channel {
            [outer, inner]
        } else {
            [inner, outer]
        };
        self.solid(&[tip, back.moved(0.0, -0.5 * k), back.moved(0.0, 0.5 * k)]);
    }

    fn loudspeaker(&mut self) {
        let k = self.k;
        let r = self.body;
        let c = r.centre();
        let magnet = Rect::new(r.x, c.y - 1.9 * k, 2.0 * k, 3.8 * k);
        for lead in self.leads {
            let x = r.x + 1.0 * k;
            let y = if lead.at.y < c.y {
                magnet.y
            } else {
                magnet.bottom()
            };
            self.line(&[lead.at, Point::new(x, lead.at.y), Point::new(x, y)]);
        }
        let cone = [
            Point::new(magnet.right(), magnet.y),
            Point::new(r.right(), r.y),
            Point::new(r.right(), r.bottom()),
            Point::new(magnet.right(), magnet.bottom()),
        ];
        let style = Style::filled(Role::Paper).edged(LINE);
        self.out.path(Path::polygon(&cone), style);
        self.out.rect(magnet, style);
    }

    fn ground(&mut self) {
        let Some(lead) = self.leads.first() else {
            return;
        };
        let k = self.k;
        let foot = Point::new(self.body.centre().x, lead.at.y + 1.2 * k);
        self.line(&[lead.at, Point::new(foot.x, lead.at.y), foot]);
        for (i, half) in [1.5, 1.0, 0.5].into_iter().enumerate() {
            let y = 0.55 * k * i as f64;
            self.line(&[foot.moved(-half * k, y), foot.moved(half * k, y)]);
        }
    }

    fn point(&mut self) {
        self.leads_in();
        let centre = self.body.centre();
        self.open_circle(centre);
    }
}
