//! A day as one page for a browser: no script, nothing fetched, the bars as on paper.

use super::layout::{Fault, day_pages};
use super::svg;
use super::words;
use super::words::day as said;
use super::words::day::rows::{self, Is};
use super::xml::escaped;
use crate::plan::day::Day;
use crate::reading::harmless;

const STYLE: &str = "body{font:1.0625rem/1.4 sans-serif;margin:1rem auto;max-width:60rem;padding:0 .5rem;color:#000;background:#fff}\
table{border-collapse:collapse;width:100%}td,th{text-align:left;vertical-align:top;padding:.3rem .5rem .3rem 0;border-bottom:1px solid #999}\
th{white-space:nowrap;font-size:1.2rem}tr.change td{color:#333;font-style:italic}tr.later th{font-weight:normal}.bars{overflow-x:auto}.bars svg{width:100%;min-width:44rem;height:auto}\
input{width:44px;height:44px;margin:0 .5rem 0 0;flex:none;accent-color:#000}th label{display:flex;flex-direction:column-reverse}\
ul.ticks{list-style:none;padding:0}.ticks label{display:flex;align-items:center;padding:.15rem 0}h2{margin:1.2rem 0 .3rem}";

/// A box to tick.
const TICK: &str = "<input type=\"checkbox\">";

/// A day as HTML.
///
/// # Errors
/// As [`day_pages`].
pub fn day_html(day: &Day) -> Result<String, Fault> {
    let names = day.jobs.iter().chain(&day.engines).chain(&day.shop).cloned().collect::<Vec<_>>().join(" · ");
    let title = day.date.map_or_else(|| said::DAY_PAGE.to_owned(), |date| date.to_string());
    let mut out = format!(
        "<!DOCTYPE html>\n<html lang=\"{}\"><head><meta charset=\"utf-8\"><meta name=\"viewport\" \
         content=\"width=device-width\"><title>{}</title><style>{STYLE}</style></head><body><main class=\"screen\">\n",
        words::LANGUAGE,
        text(&format!("{title} {names}"))
    );
    out += &format!("<h1>{}</h1>\n", text(&title));
    let finish = format!("{} {}, {}", said::FINISH, said::finish(day), said::proof(day));
    for line in [names, format!("{} {}", said::OPEN, said::hours(day)), finish, said::sums(day)] {
        out += &format!("<p>{}</p>\n", text(&line));
    }
    for page in &day_pages(day)? {
        let drawn: Vec<String> = svg::pictures(page, said::DAY_PAGE).into_iter().collect();
        if !drawn.is_empty() {
            // On a telephone the bars are pushed along in their own frame: made as narrow as the page nobody could read them.
            out += &format!("<div class=\"bars\" tabindex=\"0\" role=\"region\" aria-label=\"{}\">", said::BARS);
            out += &drawn.join("\n");
            out += "</div>\n";
        }
    }
    timetable(&mut out, day);
    let lists: [(&str, Vec<String>); 13] = [
        (said::LOG_FAULTS, day.log_faults.clone()),
        (said::HOLD_POINTS, said::hold_points(day)),
        (said::APPOINTMENTS, day.impossible.iter().map(|own| said::appointment(day, own)).collect()),
        (said::BROKEN, day.better_broken.iter().map(said::broken).collect()),
        (said::PULL, day.pull.iter().map(|own| said::pulled_at(day, own)).collect()),
        (said::LACKING, day.missing.iter().map(|own| said::lacking(day, own)).collect()),
        (said::MACHINES, day.machines.iter().map(|own| said::of_machine(day, own).join(", ")).collect()),
        (said::OUT, said::all_left_out(day)),
        (said::OVER, day.left_over.iter().map(|own| said::left_over(day, own)).collect()),
        (said::RULES_OUT, day.rules_left_out.iter().map(said::rule_out).collect()),
        (said::LOGGED, said::logged(day)),
        (said::TAKEN_AS_DONE, said::taken_as_done(day)),
        (said::DEFAULTS, said::all_assumed(day)),
    ];
    for (heading, lines) in lists.iter().filter(|(_, lines)| !lines.is_empty()) {
        // What is to be at hand is ticked as it is found.
        let ticked = *heading == said::PULL;
        let item = |line: &String| match ticked {
            true => format!("<li><label>{TICK}{}</label></li>", text(line)),
            false => format!("<li>{}</li>", text(line)),
        };
        let (items, class): (String, _) =
            (lines.iter().map(item).collect(), if ticked { " class=\"ticks\"" } else { "" });
        out += &format!("<h2>{}</h2><ul{class}>{items}</ul>\n", text(heading));
    }
    out += &format!("<p>{}</p>\n</main></body></html>\n", text(words::STANDING));
    Ok(out)
}

fn timetable(out: &mut String, day: &Day) {
    *out += &format!("<h2>{}</h2>\n", text(said::TIMETABLE));
    if day.lines.is_empty() {
        *out += &format!("<p>{}</p>\n", text(said::nothing(day)));
    }
    *out += "<table>";
    for of in rows::rows(day) {
        let clock = said::clock(day, of.from);
        *out += &match of.is {
            Is::Day => format!("<tr><th colspan=\"3\">{}</th></tr>", text(&of.words)),
            Is::Break | Is::ChangeOver => {
                format!("<tr class=\"change\"><td>{clock}</td><td></td><td>{}</td></tr>", text(&of.words))
            }
            Is::SetUp(line) => {
                let words: Vec<String> = [of.words.clone(), line.machine.clone(), said::minutes(line)]
                    .into_iter()
                    .chain(rows::marks(day, line))
                    .chain(line.by_itself_until.map(|until| rows::by_itself(day, line, until)))
                    .map(|words| text(&words))
                    .collect();
                let class = if line.may_change_after.is_some() { " class=\"later\"" } else { "" };
                let id = text(&line.id);
                format!(
                    "<tr{class}><th><label><input type=\"checkbox\" aria-label=\"{clock} {id}\">{clock}</label></th>\
                     <td>{id}</td><td>{}</td></tr>",
                    words.join(", ")
                )
            }
        };
    }
    *out += "</table>\n";
}

/// A text as it may stand in the page.
fn text(text: &str) -> String {
    escaped(&harmless(text)).into_owned()
}
