//! What a file says of itself to whoever keeps files in order (XMP, ISO 16684-1).

use super::Meta;
use crate::sheet::xml::escaped;
use lopdf::{Stream, dictionary};

/// What made the file: by this it is known again before it is written over.
const PROGRAM: &str = env!("CARGO_PKG_NAME");

/// The packet, unpacked so that it is found without reading the rest.
pub(super) fn packet(meta: &Meta) -> Stream {
    let mut said = format!("<dc:format>application/pdf</dc:format><xmp:CreatorTool>{PROGRAM}</xmp:CreatorTool>");
    let title = escaped(&meta.title);
    said += &format!("<dc:title><rdf:Alt><rdf:li xml:lang=\"x-default\">{title}</rdf:li></rdf:Alt></dc:title>");
    if !meta.author.is_empty() {
        said += &format!("<dc:creator><rdf:Seq><rdf:li>{}</rdf:li></rdf:Seq></dc:creator>", escaped(&meta.author));
    }
    if !meta.language.is_empty() {
        let language = escaped(&meta.language);
        said += &format!("<dc:language><rdf:Bag><rdf:li>{language}</rdf:li></rdf:Bag></dc:language>");
    }
    if let Some(date) = meta.date.as_deref().filter(|date| is_day(date)) {
        said += &format!("<dc:date><rdf:Seq><rdf:li>{date}</rdf:li></rdf:Seq></dc:date>");
    }
    let packet = format!(
        "<?xpacket begin=\"\u{feff}\" id=\"W5M0MpCehiHzreSzNTczkc9d\"?>\n\
         <x:xmpmeta xmlns:x=\"adobe:ns:meta/\"><rdf:RDF xmlns:rdf=\"http://www.w3.org/1999/02/22-rdf-syntax-ns#\">\
         <rdf:Description rdf:about=\"\" xmlns:dc=\"http://purl.org/dc/elements/1.1/\" xmlns:xmp=\"http://ns.adobe.com/xap/1.0/\">{said}</rdf:Description>\
         </rdf:RDF></x:xmpmeta>\n<?xpacket end=\"r\"?>"
    );
    Stream::new(dictionary! { "Type" => "Metadata", "Subtype" => "XML" }, packet.into_bytes()).with_compression(false)
}

/// Whether a text has the form of a day as XMP writes it: `2026-11-26`.
fn is_day(text: &str) -> bool {
    let form = |(at, c): (usize, char)| matches!((at, c), (4 | 7, '-') | (0..=3 | 5 | 6 | 8 | 9, '0'..='9'));
    text.len() == 10
        && text.chars().enumerate().all(form)
        && text.get(5..7).is_some_and(|month| ("01"..="12").contains(&month))
        && text.get(8..10).is_some_and(|day| ("01"..="31").contains(&day))
}

#[cfg(test)]
mod tests {
    use super::{Meta, is_day, packet};

    #[test]
    fn words_are_escaped_and_only_a_day_is_a_date() {
        let meta = Meta { title: "A & B <c>".into(), date: Some("2026-11-26".into()), ..Meta::default() };
        let said = String::from_utf8(packet(&meta).content).unwrap();
        assert!(said.contains("A &amp; B &lt;c&gt;") && said.contains("<rdf:li>2026-11-26</rdf:li>"), "{said}");
        assert!(!said.contains("dc:creator"), "{said}");
        for not in ["26 November", "2026-13-01", "2026-1-1", "", "2026-11-26T", "20261-1-26"] {
            assert!(!is_day(not), "{not}");
        }
    }
}
