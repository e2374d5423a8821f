//! Places and draws the bars of a cost chart: names, stacked parts, totals, a money axis.
//!
//! Must not know where the amounts come from. Start at [`Bars`].

use super::ChartError;
use super::canvas::{self, Align, Canvas, Stroke, Type};
use super::costs::CostBar;
use super::frame::{Frame, MARGIN, WIDTH};
use super::numbers::{self, Scale, money};
use super::palette::{self, Colour};
use super::placing::Plate;

const NAME: Type = Type::bold(13.5, palette::INK);
const WARNING: Type = Type::bold(12.5, palette::ALARM);
const TOTAL: Type = Type::bold(15.0, palette::INK);
const TICK: Type = Type::plain(11.5, palette::MUTED);
const INSIDE: f64 = 11.5;

const LINE: f64 = 17.0;
const BAR: f64 = 30.0;
const ROW_PADDING: f64 = 11.0;
/// Height of the money axis.
const AXIS: f64 = 24.0;
/// The triangle and the white after it.
const SIGN: f64 = 19.0;
/// Names may take this much of the width; 60 letters then fit into two lines.
const WIDEST_NAME: f64 = 270.0;

/// One option's place on the sheet.
struct Row {
    name: Vec<String>,
    warning: Vec<String>,
    top: f64,
    height: f64,
}

/// Where everything stands.
pub(super) struct Bars<'a> {
    options: &'a [CostBar],
    currency: &'a str,
    frame: Frame,
    end_uses: Vec<&'a str>,
    rows: Vec<Row>,
    money: Scale,
    bottom: f64,
}

impl<'a> Bars<'a> {
    /// Places one bar an option; `heading` is title, subtitle and foot.
    pub(super) fn laid_out(
        options: &'a [CostBar],
        currency: &'a str,
        [title, subtitle, foot]: [&str; 3],
    ) -> Result<Self, ChartError> {
        let end_uses = end_uses(options);
        let hatched =
            options.iter().find(|option| option.warning.is_some()).map(|_| "hatched: not warm in every hour");
        let key: Vec<String> = end_uses.iter().copied().chain(hatched).map(str::to_string).collect();
        let frame = Frame::laid_out(title, subtitle, &key, foot)?;
        let (mut top, mut names, mut totals) = (frame.body, 120.0_f64, 0.0_f64);
        let mut rows = Vec::with_capacity(options.len());
        for option in options {
            let row = Row::of(option, top)?;
            names = names.max(row.width()?);
            totals = totals.max(canvas::width(&money(currency, option.total), &TOTAL)?);
            top += row.height;
            rows.push(row);
        }
        let (low, most) = options
            .iter()
            .map(CostBar::reach)
            .fold((0.0_f64, 0.0_f64), |(low, high), (l, h)| (low.min(l), high.max(h)));
        let high = if most > 0.0 { most } else { 1.0 };
        let money = Scale { low, high, from: MARGIN + names + 20.0, to: WIDTH - MARGIN - totals - 10.0 };
        Ok(Self { options, currency, frame, end_uses, rows, money, bottom: top + AXIS })
    }

    /// The height of the whole chart.
    pub(super) fn height(&self) -> f64 {
        self.bottom + self.frame.foot_height()
    }

    /// Draws the whole chart.
    pub(super) fn drawn(&self, canvas: &Canvas<'_>) -> Result<(), ChartError> {
        self.frame.drawn(canvas, self.bottom)?;
        self.key(canvas)?;
        self.lines(canvas)?;
        self.ticks(canvas)?;
        self.rows.iter().zip(self.options).try_for_each(|(row, option)| {
            row.label(canvas)?;
            self.bar(canvas, row, option)
        })
    }

    fn key(&self, canvas: &Canvas<'_>) -> Result<(), ChartError> {
        for (place, entry) in self.frame.key.iter().enumerate() {
            let (x, y) = entry.swatch;
            let box_ = Plate { left: x, top: y - 6.5, right: x + 16.0, bottom: y + 6.5 };
            match self.end_uses.get(place) {
                Some(name) => filled(canvas, box_, palette::end_use(name))?,
                None => {
                    filled(canvas, box_, palette::MUTED)?;
                    hatch(canvas, box_)?;
                }
            }
        }
        Ok(())
    }

    /// Hairlines between the rows, the zero line and the line of the money axis.
    fn lines(&self, canvas: &Canvas<'_>) -> Result<(), ChartError> {
        for row in self.rows.iter().skip(1) {
            canvas.path(&[(MARGIN, row.top), (WIDTH - MARGIN, row.top)], Stroke(0.8, palette::GRID))?;
        }
        let (left, right, base) = (self.money.from, self.money.to, self.bottom - AXIS);
        let zero = self.money.at(0.0);
        canvas.path(&[(left, base), (right, base)], Stroke(1.0, palette::AXIS))?;
        canvas.path(&[(zero, self.frame.body + 4.0), (zero, base)], Stroke(1.0, palette::AXIS))
    }

    fn ticks(&self, canvas: &Canvas<'_>) -> Result<(), ChartError> {
        let base = self.bottom - AXIS;
        let widest = canvas::width(&money(self.currency, self.money.high), &TICK)? + 34.0;
        let most = ((self.money.to - self.money.from) / widest).floor().clamp(1.0, 6.0);
        // Ticks are whole: below a step of 2 their words could not tell them apart from rounding.
        let step = numbers::step(self.money.high - self.money.low, most).max(2.0);
        for tick in numbers::ticks(self.money.low, self.money.high, step) {
            let x = self.money.at(tick);
            canvas.path(&[(x, base), (x, base + 4.0)], Stroke(1.0, palette::AXIS))?;
            canvas.words(&money(self.currency, tick), (x, base + 18.0), Align::Middle, &TICK)?;
        }
        Ok(())
    }

    fn bar(&self, canvas: &Canvas<'_>, row: &Row, bar: &CostBar) -> Result<(), ChartError> {
        let middle = row.top + row.height / 2.0;
        let (top, bottom) = (middle - BAR / 2.0, middle + BAR / 2.0);
        // Credits go to the left of zero, all else to the right.
        let (mut credits, mut so_far) = (0.0, 0.0);
        for (name, amount) in bar.shown() {
            let end = if *amount < 0.0 { &mut credits } else { &mut so_far };
            let from = *end;
            *end += amount;
            let (left, right) = (self.money.at(from.min(*end)), self.money.at(from.max(*end)));
            let place = Plate { left, top, right, bottom };
            segment(canvas, place, name, &money(self.currency, *amount), bar.warning.is_some())?;
        }
        let end = (self.money.at(so_far) + 8.0, middle + 5.3);
        canvas.words(&money(self.currency, bar.total), end, Align::Left, &TOTAL)
    }
}

impl Row {
    fn of(option: &CostBar, top: f64) -> Result<Self, ChartError> {
        let name = canvas::wrapped(&option.name, &NAME, WIDEST_NAME, 3)?;
        let warning = match &option.warning {
            Some(words) => canvas::wrapped(words, &WARNING, WIDEST_NAME - SIGN, 2)?,
            None => Vec::new(),
        };
        let lines = (name.len() + warning.len()) as f64;
        let height = (lines * LINE).max(BAR) + 2.0 * ROW_PADDING;
        Ok(Self { name, warning, top, height })
    }

    fn width(&self) -> Result<f64, ChartError> {
        let mut widest = 0.0_f64;
        for line in &self.name {
            widest = widest.max(canvas::width(line, &NAME)?);
        }
        for line in &self.warning {
            widest = widest.max(SIGN + canvas::width(line, &WARNING)?);
        }
        Ok(widest)
    }

    fn label(&self, canvas: &Canvas<'_>) -> Result<(), ChartError> {
        let lines = (self.name.len() + self.warning.len()) as f64;
        let mut base = self.top + (self.height - lines * LINE) / 2.0 + 13.0;
        for line in &self.name {
            canvas.words(line, (MARGIN, base), Align::Left, &NAME)?;
            base += LINE;
        }
        for (place, line) in self.warning.iter().enumerate() {
            if place == 0 {
                sign(canvas, MARGIN, base)?;
            }
            canvas.words(line, (MARGIN + SIGN, base), Align::Left, &WARNING)?;
            base += LINE;
        }
        Ok(())
    }
}

/// Every end use that has a bar somewhere, in the order in which they first appear.
fn end_uses(options: &[CostBar]) -> Vec<&str> {
    let mut found: Vec<&str> = Vec::new();
    for (name, _) in options.iter().flat_map(CostBar::shown) {
        if !found.contains(&name.as_str()) {
            found.push(name);
        }
    }
    found
}

/// One part of a bar, parted from the next by white, with its amount where that fits.
fn segment(
    canvas: &Canvas<'_>,
    place: Plate,
    name: &str,
    amount: &str,
    cold: bool,
) -> Result<(), ChartError> {
    let colour = palette::end_use(name);
    let width = place.right - place.left;
    let seam = if width > 3.0 { 1.0 } else { 0.0 };
    let inner = Plate { right: place.right - seam, ..place };
    filled(canvas, inner, colour)?;
    if cold {
        hatch(canvas, inner)?;
    }
    let kind = Type::plain(INSIDE, palette::text_on(colour));
    let needed = canvas::width(amount, &kind)?;
    if needed + 14.0 > width {
        return Ok(());
    }
    let (x, y) = ((place.left + place.right) / 2.0, (place.top + place.bottom) / 2.0);
    if cold {
        let half = needed / 2.0 + 4.0;
        filled(canvas, Plate { left: x - half, top: y - 9.0, right: x + half, bottom: y + 9.0 }, colour)?;
    }
    canvas.words(amount, (x, y + 4.1), Align::Middle, &kind)
}

fn filled(canvas: &Canvas<'_>, place: Plate, colour: Colour) -> Result<(), ChartError> {
    canvas.rectangle((place.left, place.top), (place.right, place.bottom), colour, 1.0)
}

/// White slanting lines over a bar.
fn hatch(canvas: &Canvas<'_>, place: Plate) -> Result<(), ChartError> {
    let height = place.bottom - place.top;
    let mut x = place.left - height;
    while x < place.right {
        if let Some((a, b)) = place.clipped((x, place.bottom), (x + height, place.top)) {
            canvas.path(&[a, b], Stroke(1.3, palette::WHITE))?;
        }
        x += 6.0;
    }
    Ok(())
}

/// A small warning triangle that stands on the base line.
fn sign(canvas: &Canvas<'_>, left: f64, base: f64) -> Result<(), ChartError> {
    let (middle, top, bottom) = (left + 7.0, base - 11.0, base + 1.0);
    canvas.shape(&[(left, bottom), (middle, top), (left + 14.0, bottom)], palette::ALARM, 1.0)?;
    canvas.path(&[(middle, top + 4.2), (middle, bottom - 3.6)], Stroke(1.6, palette::WHITE))?;
    canvas.path(&[(middle, bottom - 2.6), (middle, bottom - 1.1)], Stroke(1.6, palette::WHITE))
}
