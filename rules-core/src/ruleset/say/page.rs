//! The read-back as a page to print, each sentence beside its clause, with places to sign.

use super::{Group, Line, ReadBack, Said, Sort};
use crate::text::{Visible, escaped};

const STYLE: &str = "body{font:11pt/1.4 serif;max-width:48em;margin:2em auto;padding:0 1em}\
h1{font-size:16pt}h2{font-size:13pt;border-bottom:1px solid}\
table{border-collapse:collapse;width:100%}\
td,th{border:1px solid #999;padding:.3em .5em;text-align:left;vertical-align:top}\
th{width:11em;font-weight:normal}p{margin:.2em 0}ul{margin:.2em 0;padding-left:1.3em}\
.sign{width:4.5em}.note{border:1px solid;padding:.6em}\
.names td{height:2.4em}\
@media print{body{margin:0;max-width:none}tr{break-inside:avoid}h2{break-after:avoid}}";

const NOTE: &str = "This is how the program reads the rule file, put into sentences by the program. It is not the rule: \
                    the written rule stands, and where the two differ the sentence or the file is wrong. Whoever signs a \
                    line has compared it with the clause beside it.";

impl ReadBack {
    /// The read-back as one HTML file that needs no other, to be printed and signed.
    pub fn to_page(&self) -> Visible {
        let mut page = Visible::new();
        let title = escaped(&self.title).into_owned();
        page.line("<!DOCTYPE html>");
        page.line(format!(
            "<html lang=\"en\"><head><meta charset=\"utf-8\"><meta name=\"viewport\" content=\"width=device-width\"><title>{title}</title>"
        ));
        page.line(format!("<style>{STYLE}</style></head><body>"));
        page.line(format!("<h1>{title}</h1>"));
        page.line(format!("<p class=\"note\">{NOTE}</p>"));
        page.extend(paragraphs(&self.head));
        for group in self.groups.iter().filter(|group| !group.said.is_empty()) {
            group.add_to(&mut page);
        }
        page.extend(names());
        page.line("</body></html>");
        page
    }
}

impl Group {
    fn add_to(&self, page: &mut Visible) {
        page.line(format!("<h2>{}</h2>", self.sort.title()));
        page.line("<table>");
        let beside = match self.sort {
            Sort::Rules | Sort::Decisions => "Clause",
            _ => "What",
        };
        page.line(format!(
            "<thead><tr><th scope=\"col\">{beside}</th><td>What the program reads</td><td class=\"sign\">Right? (initials)</td></tr></thead>"
        ));
        page.line("<tbody>");
        for said in &self.said {
            said.add_row(page);
        }
        page.line("</tbody></table>");
    }
}

impl Said {
    fn add_row(&self, page: &mut Visible) {
        let title = escaped(&self.title);
        let head = match &self.clause {
            Some(clause) => format!("{}<p>{title}</p>", escaped(clause)),
            None => title.into_owned(),
        };
        page.line(format!("<tr><th scope=\"row\">{head}</th><td>"));
        page.extend(paragraphs(&self.lines));
        page.line("</td><td></td></tr>");
    }
}

/// Each sentence, with what is listed under it.
fn paragraphs(lines: &[Line]) -> Vec<String> {
    let mut all = Vec::new();
    for line in lines {
        all.push(format!("<p>{}</p>", escaped(&line.sentence())));
        all.extend(list(&line.under));
    }
    all
}

fn list(lines: &[Line]) -> Vec<String> {
    if lines.is_empty() {
        return Vec::new();
    }
    let mut all = vec!["<ul>".to_owned()];
    for line in lines {
        all.push(format!("<li>{}", escaped(&line.sentence())));
        all.extend(list(&line.under));
        all.push("</li>".to_owned());
    }
    all.push("</ul>".to_owned());
    all
}

/// Places for names, left blank.
fn names() -> Vec<String> {
    let row = "<tr><td></td><td></td><td></td><td></td></tr>";
    let head =
        "<tr><td>Read and compared by</td><td>Office</td><td>Day</td><td>Signature</td></tr>";
    let mut all = vec![
        "<h2>Signed</h2>".to_owned(),
        "<table class=\"names\">".to_owned(),
    ];
    all.extend([head, row, row, row, "</table>"].map(str::to_owned));
    all
}
