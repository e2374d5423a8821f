//! Sliders for prices, and the coefficients that they move.
//!
//! Start at [`sliders`] and [`data`].

use super::front_part::bar;
use super::writing::escaped;
use crate::comparison::{Comparison, OptionResult, Warmth};
use crate::fuel::FuelId;
use crate::report::build::{TIE_AMOUNT, TIE_SHARE};
use crate::report::figures::grouped;
use crate::report::front::{rounding, unit_words};
use crate::report::json_text;
use crate::report::levers::why_off;
use crate::study::levers::{SpikeLever, WhyOff};
use crate::study::{Levers, OptionLevers};
use serde::Serialize;

/// Factors that a fuel's slider reaches.
const FUEL_REACH: (f64, f64) = (0.4, 3.0);
/// Factors that a spike's slider reaches.
const SPIKE_REACH: (f64, f64) = (1.0, 4.0);

#[derive(Serialize)]
struct Data<'a> {
    currency: &'a str,
    fine: f64,
    coarse: f64,
    fine_below: f64,
    tie_share: f64,
    tie_amount: f64,
    fuels: Vec<&'a str>,
    spikes: Vec<SpikeData<'a>>,
    options: Vec<OptionData<'a>>,
}

#[derive(Serialize)]
struct SpikeData<'a> {
    name: &'a str,
    times: f64,
    fuel: Option<usize>,
}

#[derive(Serialize)]
struct OptionData<'a> {
    name: &'a str,
    warm: bool,
    cost: f64,
    off: Option<&'static str>,
    held: Vec<usize>,
    constant: f64,
    terms: Vec<TermData>,
}

#[derive(Serialize)]
struct TermData {
    fuel: usize,
    spikes: Vec<usize>,
    amount: f64,
}

/// Everything that the sliders need to know, as JSON that cannot end its element.
pub(super) fn data<'a>(c: &'a Comparison, levers: &'a Levers) -> Result<String, serde_json::Error> {
    let place = |fuel: FuelId| levers.fuels.iter().position(|own| *own == fuel);
    let spike = |s: &'a SpikeLever| SpikeData { name: &s.name, times: s.times, fuel: place(s.fuel) };
    let options = c.options.iter().zip(&levers.options).map(|(option, own)| OptionData {
        held: held(own).iter().filter_map(|(fuel, _)| place(*fuel)).collect(),
        ..option_data(option, own)
    });
    let data = Data {
        currency: &c.currency,
        fine: rounding::FINE,
        coarse: rounding::COARSE,
        fine_below: rounding::FINE_BELOW,
        tie_share: TIE_SHARE,
        tie_amount: TIE_AMOUNT,
        fuels: levers.fuels.iter().map(|id| fuel_name(c, *id)).collect(),
        spikes: levers.spikes.iter().map(spike).collect(),
        options: options.collect(),
    };
    Ok(json_text::compact(&data)?.replace('<', "\\u003c"))
}

fn option_data<'a>(option: &'a OptionResult, own: &OptionLevers) -> OptionData<'a> {
    let (off, constant, terms) = match own {
        OptionLevers::Off(why) => (Some(why_off(*why)), 0.0, Vec::new()),
        OptionLevers::On { constant, terms, .. } => (None, *constant, terms.clone()),
    };
    let term = |t: crate::study::levers::Term| TermData { fuel: t.fuel, spikes: t.spikes, amount: t.amount };
    OptionData {
        name: &option.design.name,
        warm: !option.goes_cold(),
        cost: option.yearly_cost(),
        off,
        held: Vec::new(),
        constant,
        terms: terms.into_iter().map(term).collect(),
    }
}

/// The fuels whose sliders do not move the option, and why.
fn held(own: &OptionLevers) -> &[(FuelId, WhyOff)] {
    match own {
        OptionLevers::On { held, .. } => held,
        OptionLevers::Off(_) => &[],
    }
}

fn fuel_name(c: &Comparison, id: FuelId) -> &str {
    c.fuels.get(id).map_or("", |fuel| &fuel.name)
}

/// Whether some option's cost hangs on a lever; one that nothing hangs on is not shown.
fn moves(levers: &Levers, on: impl Fn(&crate::study::levers::Term) -> bool) -> bool {
    levers.options.iter().any(|own| match own {
        OptionLevers::On { terms, .. } => terms.iter().any(&on),
        OptionLevers::Off(_) => false,
    })
}

/// The section with the sliders and what comes of them.
pub(super) fn sliders(c: &Comparison, levers: &Levers) -> String {
    let inputs = inputs(c, levers);
    let off = off(c, levers);
    let rows: String = c.options.iter().enumerate().map(|(place, option)| row(c, place, option)).collect();
    let hidden = if inputs.is_empty() { " hidden" } else { "" };
    let intro = intro(levers, inputs.is_empty(), off.is_empty());
    format!(
        "<section class=\"try\" aria-labelledby=\"try\">\n<h2 id=\"try\">What if prices move?</h2>\n\
         <p>{intro}</p>\n\
         <noscript><p>The sliders need scripts, which this page carries within itself; all other figures stand \
         without them.</p></noscript>\n{inputs}<p><button type=\"button\" id=\"reset\"{hidden}>Back to the prices of the \
         job</button></p>\n<p id=\"now\" class=\"key\" aria-live=\"polite\"></p>\n<table class=\"now\">\n<caption>A year at \
         these prices, about</caption>\n<tbody>\n{rows}</tbody>\n</table>\n{off}</section>\n"
    )
}

fn inputs(c: &Comparison, levers: &Levers) -> String {
    let fuels = levers.fuels.iter().enumerate();
    let fuels = fuels.filter(|(place, _)| moves(levers, |term| term.fuel == *place));
    let spikes = levers.spikes.iter().enumerate();
    let spikes = spikes.filter(|(place, _)| moves(levers, |term| term.spikes.contains(place)));
    let spikes = spikes.map(|(place, spike)| spike_slider(c, place, spike));
    fuels.filter_map(|(place, id)| fuel_slider(c, place, *id)).chain(spikes).collect()
}

/// What the sliders do, and what they do not.
fn intro(levers: &Levers, no_slider: bool, all_follow: bool) -> String {
    let moves = match (no_slider, all_follow) {
        (true, _) => "No price can be moved here; why stands below.",
        (false, true) => {
            "Move a price: every option\u{2019}s yearly cost follows as the program itself would work it out. \
             Whether it keeps you warm does not change."
        }
        (false, false) => {
            "Move a price: yearly costs follow as the program itself would work them out, but for what is said \
             below. Whether it keeps you warm does not change."
        }
    };
    let before_spikes = match levers.spikes.is_empty() || no_slider {
        true => "",
        false => {
            " A slider tells the mean of the year\u{2019}s days before the spikes; the prices at the top of this page \
             are means over what is burned, spikes included. Both move by the same share."
        }
    };
    format!("{moves}{before_spikes}")
}

/// A sentence for each cost, or part of one, that follows no slider.
fn off(c: &Comparison, levers: &Levers) -> String {
    let of_option = |(option, own): (&OptionResult, &OptionLevers)| {
        let name = escaped(&option.design.name);
        match own {
            OptionLevers::Off(why) => format!(
                "<p>\u{201c}{name}\u{201d} does not follow the sliders and keeps its cost: {}.</p>\n",
                why_off(*why)
            ),
            OptionLevers::On { held, .. } => {
                let told = held.iter().map(|(fuel, why)| {
                    let fuel = escaped(fuel_name(c, *fuel));
                    format!(
                        "<p>What \u{201c}{name}\u{201d} pays for {fuel} follows no slider: {}.</p>\n",
                        why_off(*why)
                    )
                });
                told.collect()
            }
        }
    };
    c.options.iter().zip(&levers.options).map(of_option).collect()
}

fn fuel_slider(c: &Comparison, place: usize, id: FuelId) -> Option<String> {
    let (fuel, price) = (c.fuels.get(id)?, c.prices.of(id)?);
    let (base, unit) = unit_words::price(fuel, price.mean_energy());
    let before = if price.spikes.is_empty() { "" } else { " before its spikes" };
    let alone = if price.riders.is_empty() && price.tax == 0.0 { "" } else { ", energy alone" };
    let label = format!("Price of {}, mean of the year{before}{alone}", fuel.name);
    Some(slider(
        &label,
        ("fuel", place),
        &format!("data-base=\"{base}\" data-unit=\"{unit}\""),
        (1.0, FUEL_REACH),
    ))
}

fn spike_slider(c: &Comparison, place: usize, spike: &SpikeLever) -> String {
    let label = format!("\u{201c}{}\u{201d}: {} on those days", spike.name, fuel_name(c, spike.fuel));
    let reach = (SPIKE_REACH.0.min(spike.times), SPIKE_REACH.1.max(spike.times));
    slider(&label, ("spike", place), "", (spike.times, reach))
}

fn slider(
    label: &str,
    (kind, place): (&str, usize),
    more: &str,
    (start, reach): (f64, (f64, f64)),
) -> String {
    let id = format!("{kind}-{place}");
    format!(
        "<div class=\"lever\">\n<label for=\"{id}\">{}</label><output id=\"{id}-says\" for=\"{id}\"></output>\n\
         <div class=\"track\"><input type=\"range\" id=\"{id}\" min=\"{}\" max=\"{}\" step=\"0.01\" value=\"{start}\" \
         data-start=\"{start}\" data-kind=\"{kind}\" data-place=\"{place}\" {more}>\
         <span class=\"tip\" id=\"{id}-tip\" aria-hidden=\"true\" hidden>\u{25b2}</span></div>\n\
         <span class=\"says\" id=\"{id}-text\"></span>\n</div>\n",
        escaped(label),
        reach.0,
        reach.1
    )
}

fn row(c: &Comparison, place: usize, option: &OptionResult) -> String {
    let hours = grouped(option.hours_not_kept_warm() as f64, 0);
    let cold = match option.warmth() {
        Warmth::Kept => String::new(),
        Warmth::SlowToRecover => {
            format!(" <span class=\"cold\">(slow after its set-back: {hours} hours)</span>")
        }
        Warmth::DryWithoutSetBacks => {
            format!(
                " <span class=\"cold\">(short after its set-back: {hours} hours; out of fuel without it)</span>"
            )
        }
        Warmth::GoesCold => format!(" <span class=\"cold\">(cold for {hours} hours)</span>"),
    };
    format!(
        "<tr data-option=\"{place}\" data-exact=\"{:.2}\"><th scope=\"row\"><span class=\"mark o{place}\"></span>{}{cold}</th>\
         <td class=\"picture\">{}</td><td class=\"n amount\">{}</td></tr>\n",
        option.yearly_cost(),
        escaped(&option.design.name),
        bar(&[(0.0, 1.0, 1.0)], place),
        rounding::about(&c.currency, option.yearly_cost())
    )
}
