//! What must be done with each part, as one page for a browser: no script, nothing fetched.

use super::words;
use super::words::{day, decide as said};
use super::xml::escaped;
use crate::plan::decide::Decided;
use crate::reading::harmless;

const STYLE: &str = "body{font:1.1rem/1.4 sans-serif;margin:1rem auto;max-width:90rem;padding:0 .5rem;color:#000;background:#fff}\
table{border-collapse:collapse;width:100%}td,th{text-align:left;vertical-align:top;padding:.3rem .6rem .3rem 0;border-bottom:1px solid #999}\
thead th{border-bottom:2px solid #000}td.decision{font-weight:bold}h2{margin:1.2rem 0 .3rem}@media print{thead{display:table-header-group}}\
@media screen and (max-width:60rem){thead{display:none}tr,td,th{display:block}tr{border-bottom:2px solid #000;padding:.5rem 0}\
td,th{border:0;padding:.1rem 0}td::before{content:attr(data-is) \": \"}}";

/// The decisions as HTML.
pub fn decide_html(decided: &Decided) -> String {
    let names = said::names(decided);
    let mut out = format!(
        "<!DOCTYPE html>\n<html lang=\"{}\"><head><meta charset=\"utf-8\"><meta name=\"viewport\" \
         content=\"width=device-width\"><title>{}</title><style>{STYLE}</style></head><body><main class=\"screen\">\n",
        words::LANGUAGE,
        text(&format!("{} {names}", said::DECIDE))
    );
    out += &format!("<h1>{}</h1>\n<p>{}</p>\n", text(said::DECIDE), text(&names));
    for line in decided.date.iter().cloned().chain([said::sums(decided)]) {
        out += &format!("<p>{}</p>\n", text(&line));
    }
    let heads =
        [said::FEATURE, said::FOUND, said::LIMIT, said::MARGIN, said::DECISION, said::WHY, said::SHEET, said::ORDER];
    let heads: String = heads.iter().map(|head| format!("<th scope=\"col\">{}</th>", text(head))).collect();
    out += &format!("<table><thead><tr>{heads}</tr></thead><tbody>\n");
    for row in &decided.rows {
        let row = said::said(row, decided.print);
        // On a narrow screen each cell stands on a line of its own, behind what its column is.
        let cell = |(head, cell): (&str, &String)| format!("<td data-is=\"{}\">{}</td>", text(head), text(cell));
        let cells =
            [(said::FOUND, &row.found), (said::LIMIT, &row.limit), (said::MARGIN, &row.margin)].map(cell).concat();
        let more = [(said::WHY, &row.why), (said::SHEET, &row.sheet), (said::ORDER, &row.order)].map(cell).concat();
        let (feature, head, decision) = (text(&row.feature), text(said::DECISION), text(&row.decision));
        let decision = format!("<td class=\"decision\" data-is=\"{head}\">{decision}</td>");
        out += &format!("<tr><th scope=\"row\">{feature}</th>{cells}{decision}{more}</tr>\n");
    }
    out += "</tbody></table>\n";
    if decided.rows.is_empty() {
        out += &format!("<p>{}</p>\n", text(said::NOTHING));
    }
    let orders: Vec<String> = decided.orders().into_iter().map(said::entry).collect();
    let faults = (day::LOG_FAULTS, &decided.log_faults);
    for (heading, lines) in [faults, (said::ORDERS, &orders), (said::ASSUMED, &decided.assumed)] {
        if !lines.is_empty() {
            let items: String = lines.iter().map(|line| format!("<li>{}</li>", text(line))).collect();
            out += &format!("<h2>{}</h2><ul>{items}</ul>\n", text(heading));
        }
    }
    out + &format!("<p>{}</p>\n</main></body></html>\n", text(words::STANDING))
}

/// A text as it may stand in the page.
fn text(text: &str) -> String {
    escaped(&harmless(text)).into_owned()
}
