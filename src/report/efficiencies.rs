//! Coefficients of performance and labels that hardly can be, in words.
//!
//! Start at [`efficiency`].

use super::figures::{Measure, grouped};
use crate::comparison::efficiency::{CopAt, OddEfficiency};

/// One odd efficiency as a sentence that says what to look at.
pub fn efficiency(found: &OddEfficiency, measure: Measure) -> String {
    let degrees = |celsius: f64| measure.temperature_words(celsius);
    match found {
        OddEfficiency::BeyondPhysics { at, cop, most } => format!(
            "PLEASE CHECK {}: a COP of {}, where no machine comes to more than {} (0.7 of what physics allows {}). Is it \
             an EER (Btu/Wh, 3.412 times the COP), or another row's?",
            place(at, measure),
            grouped(*cop, 2),
            grouped(*most, 2),
            if at.cooling { "between room and heat sink" } else { "between there and warm air" }
        ),
        OddEfficiency::BetterWhereHarder { at, cop, mild_c, mild_cop } => format!(
            "PLEASE CHECK {}: a COP of {}, but only {} at {}, where {} is easier. Are two rows or columns exchanged?",
            place(at, measure),
            grouped(*cop, 2),
            grouped(*mild_cop, 2),
            degrees(*mild_c),
            if at.cooling { "cooling" } else { "heating" }
        ),
        OddEfficiency::PoorLeast { at, cop, greatest } => format!(
            "PLEASE CHECK {}: a COP of {} beside {} at the greatest output. At its least a machine is ordinarily the more \
             efficient, or little less: is it another row's?",
            place(at, measure),
            grouped(*cop, 2),
            grouped(*greatest, 2)
        ),
        OddEfficiency::LowLabel { machine, key, label, least, turns_down } => {
            low_label(machine, key, [*label, *least], *turns_down)
        }
    }
}

fn low_label(machine: &str, key: &str, [label, least]: [f64; 2], turns_down: bool) -> String {
    let sold = if turns_down { "sold that turns down" } else { "of one speed, old ones too," };
    let other = if key.ends_with("seer2") { "an EER, a COP" } else { "a COP, an SCOP" };
    format!(
        "PLEASE CHECK {key} of {machine}: {} is less than any machine {sold} has, about {} Btu/Wh. Is it {other} or \
         another machine's?",
        grouped(label, 1),
        grouped(least, 1)
    )
}

fn place(at: &CopAt, measure: Measure) -> String {
    format!(
        "{} of {}, {} row at {}",
        at.column,
        at.machine,
        if at.cooling { "cooling" } else { "heating" },
        measure.temperature_words(at.at_c)
    )
}
