//! Turns each option's yearly cost into one horizontal bar, stacked by end use.
//!
//! Bars keep the order given. An option that leaves the house cold is marked with a triangle, words and
//! hatching, since its cost buys less than the others'. Must not know how a cost comes about.
//! Start at [`YearlyCostChart`].

use super::ChartError;
use super::canvas::{self, Align, Canvas, Sheet, Stroke, Type};
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
/// The triangle and the white after it.
const SIGN: f64 = 19.0;
/// Names may take this much of the width; 60 letters then fit into two lines.
const WIDEST_NAME: f64 = 270.0;

/// The yearly cost of several options, side by side.
#[derive(Debug, Clone, PartialEq)]
pub struct YearlyCostChart {
    /// What the chart shows, as a headline.
    pub title: String,
    /// A sentence more: the house, the weather.
    pub subtitle: String,
    /// The sign put before amounts: `$`.
    pub currency: String,
    /// One bar an option, at least one, in the order to be drawn.
    pub options: Vec<CostBar>,
    /// A remark under the chart; may be empty.
    pub foot: String,
}

/// The yearly cost of one option.
#[derive(Debug, Clone, PartialEq)]
pub struct CostBar {
    /// The option's name, as the job gives it.
    pub name: String,
    /// End use and yearly amount, zero or more, in stacking order. The end uses this crate knows by name
    /// (space heating, backup heat, cooling, standby, fixed charge, ...) have colours of their own.
    pub segments: Vec<(String, f64)>,
    /// What the parts add up to, as other tables print it; may differ from their sum by rounding,
    /// half a currency unit for each part and one half more.
    pub total: f64,
    /// Words for an option that does not keep the house warm: `goes cold: 212 h`.
    pub warning: Option<String>,
}

impl YearlyCostChart {
    /// Draws the chart as SVG, 960 pixels wide, with real text and a description for screen readers.
    ///
    /// The same values give the same bytes.
    ///
    /// # Errors
    /// [`ChartError::Empty`] without options, [`ChartError::BadValue`] for a negative or endless amount,
    /// [`ChartError::PartsDiffer`] where a total is not the sum of its parts.
    pub fn draw(&self) -> Result<String, ChartError> {
        self.checked()?;
        let layout = Layout::of(self)?;
        let description = self.described();
        let height = layout.bottom + layout.frame.foot_height();
        let sheet = Sheet { width: WIDTH, height, title: &self.title, description: &description };
        canvas::picture(&sheet, |canvas| {
            layout.frame.drawn(canvas, layout.bottom)?;
            layout.key(canvas)?;
            layout.axis(canvas, &self.currency)?;
            layout.rows.iter().zip(&self.options).try_for_each(|(row, bar)| {
                row.label(canvas)?;
                layout.bar(canvas, row, bar, &self.currency)
            })
        })
    }

    fn checked(&self) -> Result<(), ChartError> {
        if self.options.is_empty() {
            return Err(ChartError::Empty);
        }
        for option in &self.options {
            let amounts = option.segments.iter().map(|(name, amount)| (name.as_str(), *amount));
            for (name, amount) in amounts.chain([("total", option.total)]) {
                if !(amount.is_finite() && amount >= 0.0) {
                    return Err(ChartError::BadValue(format!("{amount} for {name} of “{}”", option.name)));
                }
            }
            let rounding = 0.5 * (option.segments.len() as f64 + 1.0) + 1e-9 * option.total;
            if (option.sum() - option.total).abs() > rounding {
                return Err(ChartError::PartsDiffer(option.name.clone()));
            }
        }
        Ok(())
    }

    fn described(&self) -> String {
        let option = |bar: &CostBar| {
            let parts: Vec<String> =
                bar.shown().map(|(use_, amount)| format!("{use_} {}", money(&self.currency, *amount))).collect();
            let warning = bar.warning.as_ref().map_or(String::new(), |words| format!(", {words}"));
            let parts = if parts.is_empty() { String::new() } else { format!(" ({})", parts.join(", ")) };
            format!("{}: {}{parts}{warning}.", bar.name, money(&self.currency, bar.total))
        };
        let options: Vec<String> = self.options.iter().map(option).collect();
        format!("Yearly cost of each option, one bar an option. {}", options.join(" "))
    }

    /// Every end use that has a bar somewhere, in the order in which they first appear.
    fn end_uses(&self) -> Vec<String> {
        let mut found: Vec<String> = Vec::new();
        for (name, _) in self.options.iter().flat_map(CostBar::shown) {
            if !found.contains(name) {
                found.push(name.clone());
            }
        }
        found
    }
}

impl CostBar {
    fn sum(&self) -> f64 {
        self.segments.iter().map(|(_, amount)| amount).sum()
    }

    fn shown(&self) -> impl Iterator<Item = &(String, f64)> {
        self.segments.iter().filter(|(_, amount)| *amount > 0.0)
    }
}

/// One option's place on the sheet.
struct Row {
    name: Vec<String>,
    warning: Vec<String>,
    top: f64,
    height: f64,
}

/// Where everything stands.
struct Layout {
    frame: Frame,
    end_uses: Vec<String>,
    rows: Vec<Row>,
    money: Scale,
    bottom: f64,
}

impl Layout {
    fn of(chart: &YearlyCostChart) -> Result<Self, ChartError> {
        let end_uses = chart.end_uses();
        let any_cold = chart.options.iter().any(|option| option.warning.is_some());
        let hatched = any_cold.then(|| "hatched: the house goes cold".to_string());
        let key: Vec<String> = end_uses.iter().cloned().chain(hatched).collect();
        let frame = Frame::laid_out(&chart.title, &chart.subtitle, &key, &chart.foot)?;
        let mut top = frame.body;
        let mut rows = Vec::with_capacity(chart.options.len());
        let mut names = 120.0_f64;
        for option in &chart.options {
            let row = Row::of(option, top)?;
            for line in &row.name {
                names = names.max(canvas::width(line, &NAME)?);
            }
            for line in &row.warning {
                names = names.max(SIGN + canvas::width(line, &WARNING)?);
            }
            top += row.height;
            rows.push(row);
        }
        let mut totals = 0.0_f64;
        for option in &chart.options {
            totals = totals.max(canvas::width(&money(&chart.currency, option.total), &TOTAL)?);
        }
        let most = chart.options.iter().map(CostBar::sum).fold(0.0, f64::max);
        let high = if most > 0.0 { most } else { 1.0 };
        let money = Scale { low: 0.0, high, from: MARGIN + names + 20.0, to: WIDTH - MARGIN - totals - 10.0 };
        Ok(Self { frame, end_uses, rows, money, bottom: top + 24.0 })
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

    /// Hairlines between the rows, the zero line and a plain money axis under the last row.
    fn axis(&self, canvas: &Canvas<'_>, currency: &str) -> Result<(), ChartError> {
        let top = self.frame.body;
        let base = self.bottom - 24.0;
        for row in self.rows.iter().skip(1) {
            canvas.path(&[(MARGIN, row.top), (WIDTH - MARGIN, row.top)], Stroke(0.8, palette::GRID))?;
        }
        canvas.path(&[(self.money.from, top + 4.0), (self.money.from, base)], Stroke(1.0, palette::AXIS))?;
        canvas.path(&[(self.money.from, base), (self.money.to, base)], Stroke(1.0, palette::AXIS))?;
        let widest = canvas::width(&money(currency, self.money.high), &TICK)? + 34.0;
        let most = ((self.money.to - self.money.from) / widest).floor().clamp(1.0, 6.0);
        let step = numbers::step(self.money.high, most).max(1.0);
        for tick in numbers::ticks(0.0, self.money.high, step) {
            let x = self.money.at(tick);
            canvas.path(&[(x, base), (x, base + 4.0)], Stroke(1.0, palette::AXIS))?;
            canvas.words(&money(currency, tick), (x, base + 18.0), Align::Middle, &TICK)?;
        }
        Ok(())
    }

    fn bar(&self, canvas: &Canvas<'_>, row: &Row, bar: &CostBar, currency: &str) -> Result<(), ChartError> {
        let middle = row.top + row.height / 2.0;
        let (top, bottom) = (middle - BAR / 2.0, middle + BAR / 2.0);
        let mut so_far = 0.0;
        for (name, amount) in bar.shown() {
            let left = self.money.at(so_far);
            so_far += amount;
            let place = Plate { left, top, right: self.money.at(so_far), bottom };
            segment(canvas, place, name, &money(currency, *amount), bar.warning.is_some())?;
        }
        let end = (self.money.at(so_far) + 8.0, middle + 5.3);
        canvas.words(&money(currency, bar.total), end, Align::Left, &TOTAL)
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

/// One part of a bar, parted from the next by white, with its amount where that fits.
fn segment(canvas: &Canvas<'_>, place: Plate, name: &str, amount: &str, cold: bool) -> Result<(), ChartError> {
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
