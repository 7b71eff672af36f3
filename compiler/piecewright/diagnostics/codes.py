"""Every code a diagnostic may carry. The page of a code is `pages/<code>.md`.

E1xx text and the shape of a sentence; E2xx names; E3xx sewing; E4xx expectations and quantities;
W5xx warnings and notes; E9xx files and surroundings. A number, once given, keeps its meaning.
"""

from __future__ import annotations

from typing import NamedTuple

from piecewright.diagnostics.model import Severity


class Code(NamedTuple):
    """The title is the page's heading: what is wrong, in a few words of the craft."""

    title: str
    severity: Severity = "error"


CODES: dict[str, Code] = {
    # E1xx text and the shape of a sentence
    "E101": Code("a tab"),
    "E102": Code("a character with no meaning here"),
    "E103": Code("a text that is not closed"),
    "E104": Code("brackets that do not pair"),
    "E105": Code("brackets round arithmetic"),
    "E106": Code("a number that cannot be read"),
    "E107": Code("a number with two readings"),
    "E108": Code("a minus without its spaces"),
    "E109": Code("two numbers side by side"),
    "E110": Code("an indentation that fits no line above"),
    "E111": Code("a row or line out of place"),
    "E112": Code("a row with an empty cell"),
    "E113": Code("a joining word twice in a phrase"),
    "E114": Code("something is missing in the sentence"),
    "E115": Code("nothing in the file"),
    "E116": Code("a comma in a row"),
    "E117": Code("a name and a number run together"),
    "E118": Code("nested too deep"),
    "E119": Code("a text whose rest would be a remark"),
    "E190": Code("the file is not UTF-8 text"),
    # E2xx names
    "E201": Code("a word that begins no line"),
    "E202": Code("a name that nothing has"),
    "E203": Code("a place that there is not"),
    "E204": Code("a thing of another kind"),
    "E205": Code("something was not handed over"),
    "E206": Code("more was handed over than is taken"),
    "E207": Code("a name given twice"),
    "E208": Code("a word that is no name"),
    "E209": Code("a definition that leads back to itself"),
    "E210": Code("the used file has no such name"),
    "E211": Code("a name that two used files have"),
    "E212": Code("a sentence that does not fit its verb"),
    "E213": Code("a clause that the verb does not have"),
    "E214": Code("a setting that there is not"),
    "E215": Code("no whole number"),
    "E216": Code("a unit that is cut into named parts"),
    "E217": Code("no way to turn"),
    "E218": Code("nothing stands under a line"),
    "E219": Code("something stands under a line that takes nothing"),
    "E220": Code("a list where one thing is wanted"),
    "E221": Code("a comma in a list"),
    "E222": Code("arithmetic that gives no size"),
    "E223": Code("a print that cannot be chosen"),
    "E224": Code("a tolerance larger than the seam allowance"),
    "E225": Code("an expectation that allows everything"),
    "E226": Code("a ruler coarser than the pieces"),
    "E227": Code("more round the work than the work itself"),
    "E280": Code("the used file is not there"),
    "E281": Code("files use each other in a circle"),
    # E3xx sewing
    "E301": Code("edges that do not match"),
    "E302": Code("a trim larger than the work"),
    "E303": Code("a cut that misses"),
    "E304": Code("a size of nothing"),
    "E305": Code("parts that are not alike"),
    "E306": Code("no edge lies there"),
    "E307": Code("two edges lie there"),
    "E308": Code("a second start"),
    "E309": Code("nothing on the table"),
    "E310": Code("no room for a seam"),
    "E311": Code("an angle that cannot be worked out"),
    "E312": Code("names that do not fit the parts"),
    "E313": Code("a step after the parts have names"),
    "E314": Code("a strip without ends"),
    "E315": Code("alignments that disagree"),
    "E316": Code("nothing to lay the ruler on"),
    "E317": Code("pressed toward nothing beside the seam"),
    "E318": Code("no end to lie even at"),
    "E319": Code("no seam to leave open or to finish"),
    "E320": Code("pieces that lie on each other"),
    "E321": Code("a piece that cannot lie there"),
    "E322": Code("a corner or side that takes no such curve"),
    "E323": Code("a line that does not divide the paper"),
    "E324": Code("a piece of which nothing is left"),
    "E325": Code("no paper to add to"),
    "E326": Code("a part that is not told from another"),
    "E327": Code("no cells for a sash"),
    "E328": Code("units that do not fill an edge"),
    "E329": Code("corners that a border cannot have"),
    "E330": Code("a table on point that cannot be filled or sewn"),
    "E331": Code("setting squares of a size that does not serve"),
    "E340": Code("a step that only a quilt has"),
    "E341": Code("a step after the quilt is backed or bound"),
    "E342": Code("cloth or a binding too narrow for its seams"),
    "E350": Code("a leeway that is none, or far too much"),
    "E351": Code("a die that stands twice"),
    "E352": Code("a die that no piece is cut by"),
    # E4xx expectations and quantities
    "E401": Code("an expected size that does not hold"),
    "E402": Code("an expected number that does not hold"),
    "E403": Code("an expected fabric that does not show"),
    "E404": Code("an expected number of pieces that does not hold"),
    # W5xx warnings
    "W501": Code("nothing is made by this file alone", "warning"),
    "W502": Code("a bias edge on the outside of a block", "warning"),
    "W503": Code("a point that a seam does not meet", "warning"),
    "W504": Code("seams that should meet and miss", "warning"),
    "W505": Code("seams that do not nest", "warning"),
    "W506": Code("a cut size between the ruler's marks", "warning"),
    "W507": Code("a trim with next to nothing to spare", "warning"),
    "W508": Code("a piece that is needed in both hands", "warning"),
    "W509": Code("a piece larger than the cloth", "warning"),
    "W510": Code("not cloth enough", "warning"),
    "W511": Code("a table that does not come out", "warning"),
    "W512": Code("a size far beyond what is usual", "warning"),
    "W515": Code("a print with a direction that does not lie upright", "warning"),
    "W525": Code("a long piece along the cloth", "warning"),
    "W535": Code("a die larger than the cloth", "warning"),
    "W536": Code("a piece whose rough piece is larger than the cloth", "warning"),
    "W537": Code("dies that cut nothing", "note"),
    "W540": Code("a fabric that nothing is cut from", "warning"),
    "W541": Code("a stand-in where the pattern has fabrics", "warning"),
    "W542": Code("a block or quilt that is never made", "warning"),
    # E9xx files and surroundings
    "E901": Code("the file cannot be read"),
    "E902": Code("the result cannot be written"),
}
