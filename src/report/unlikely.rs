//! What a machine is told to do that hardly anybody means, in words.
//!
//! Start at [`unlikely`].

use super::figures::{Measure, grouped, two_digits};
use crate::comparison::unlikely::Unlikely;
use crate::units::{UnitSystem, kwh_to_btu};

/// One such thing as a sentence that says what to look at.
pub fn unlikely(found: &Unlikely, measure: Measure) -> String {
    let degrees = |celsius: &f64| measure.temperature_words(*celsius);
    match found {
        Unlikely::StoveOverfed { machine, kwh, burns_kwh } => format!(
            "PLEASE CHECK daily_fuelling of {machine}: {} a day, but its fire burns {} in 24 hours at most. Is a digit or \
             the unit wrong, or its input?",
            heat_of_day(*kwh, measure),
            heat_of_day(*burns_kwh, measure)
        ),
        Unlikely::StoveUnderfed { machine, kwh, hour_kwh } => format!(
            "PLEASE CHECK daily_fuelling of {machine}: {} a day is less than its fire burns in one hour, {}. Is a digit or \
             the unit wrong, or its input?",
            heat_of_day(*kwh, measure),
            heat_of_day(*hour_kwh, measure)
        ),
        Unlikely::OddAirflow { machine, airflow_m3_s, rise_k, ordinary_k } => {
            odd_airflow(machine, *airflow_m3_s, *rise_k, *ordinary_k, measure)
        }
        Unlikely::PilotOutInWinter { machine, lit: (from, to) } => format!(
            "PLEASE CHECK pilot_from and pilot_to of {machine}: lit from {from} to {to}, its pilot is out in the middle of \
             the winter. Are the two exchanged?"
        ),
        Unlikely::LowAltitudeFactor { machine, factor, density } => format!(
            "PLEASE CHECK altitude_factor of {machine}: {}, {}. It is what thin air leaves of the output, as a share.",
            two_digits(*factor, 2),
            density.map_or_else(
                || "which is less than thin air leaves where people live".to_owned(),
                |density| format!(
                    "but air at the site\u{2019}s elevation has {} of its density at sea level",
                    grouped(density, 2)
                )
            )
        ),
        Unlikely::BurnerFirst { option, zone, burner, pump } => format!(
            "PLEASE CHECK \u{201c}{option}\u{201d}, {zone}: {burner} comes before {pump}, which then does only what the \
             flame cannot, so hardly anything. Name the heat pump first, with a compressor_lockout if it is to stop in \
             the cold."
        ),
        Unlikely::ColdCutOut { machine, at_c } => format!(
            "PLEASE CHECK cut_out of {machine}: {} is colder than any maker lets a house\u{2019}s machine work, about {}. \
             Is the unit right?",
            degrees(at_c),
            measure.fahrenheit_words(-35.0)
        ),
        Unlikely::LongDefrost { machine, minutes, every } => format!(
            "PLEASE CHECK defrost_minutes and defrost_every_minutes of {machine}: {} of each {} minutes. Ordinarily a \
             defrost takes 10 minutes at most, with 30 to 120 of running between.",
            grouped(*minutes, 0),
            grouped(*every, 0)
        ),
        Unlikely::FanCountedAlready { machine, kw } => format!(
            "PLEASE CHECK indoor_fan of {machine}: {} W, but power_includes_indoor_fan = true says that the rows have it in \
             them, so it is not counted. Write false, or take indoor_fan out.",
            grouped(1000.0 * kw, 0)
        ),
    }
}

fn odd_airflow(
    machine: &str,
    m3_s: f64,
    rise_k: f64,
    (least_k, most_k): (f64, f64),
    measure: Measure,
) -> String {
    let rise = |kelvin: f64| format!("{}\u{a0}{}", grouped(measure.difference(kelvin), 0), measure.degree());
    let flow = format!("{} {}", grouped(measure.airflow(m3_s), 0), measure.pick("cfm", "L/s"));
    let told = match rise_k > most_k {
        true => format!(
            "which its greatest output would warm by {}, more than the {} that",
            rise(rise_k),
            rise(most_k)
        ),
        false => {
            format!(
                "which its greatest output would warm by no more than {}, less than the {} that",
                rise(rise_k),
                rise(least_k)
            )
        }
    };
    format!(
        "PLEASE CHECK airflow of {machine}: {flow}, {told} such machines come to. Heat pumps have 300 to 450 cfm (140 to \
         210 L/s) for each ton of output. Is a digit wrong, or the unit?"
    )
}

fn heat_of_day(kwh: f64, measure: Measure) -> String {
    match measure.0 {
        UnitSystem::Us => format!("{} kBtu", of_day(kwh_to_btu(kwh) / 1000.0)),
        UnitSystem::Si => format!("{} kWh", of_day(kwh)),
    }
}

/// Whole numbers, but a little fire in tenths.
fn of_day(amount: f64) -> String {
    grouped(amount, usize::from(amount < 10.0))
}
