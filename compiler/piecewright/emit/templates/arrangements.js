(function () {
  "use strict";
  var data = JSON.parse(document.getElementById("arrangement-data").textContent);
  var looks = data.looks, wide = data.cell[0], tall = data.cell[1];
  var table = data.start.map(function (row) { return row.slice(); });
  var drawing = "http://www.w3.org/2000/svg";
  var section = document.getElementById("trial");
  var cells = document.getElementById("trial-cells");
  var whole = document.getElementById("trial-whole");
  var text = document.getElementById("trial-text");
  section.hidden = false;
  cells.style.gridTemplateColumns = "repeat(" + data.columns + ", max-content)";

  function use(look, x, y) {
    var one = document.createElementNS(drawing, "use");
    one.setAttribute("href", "#look-" + look);
    one.setAttribute("x", x);
    one.setAttribute("y", y);
    return one;
  }

  function sheet(across, down, factor) {
    var svg = document.createElementNS(drawing, "svg");
    svg.setAttribute("viewBox", "0 0 " + across + " " + down);
    svg.setAttribute("width", across * factor);
    svg.setAttribute("height", down * factor);
    return svg;
  }

  function name(row, column) {
    return "Row " + (row + 1) + ", block " + (column + 1) + ": " + looks[table[row][column]];
  }

  function show() {
    var columns = data.columns * data.repeats, rows = data.rows * data.repeats;
    var svg = sheet(columns * wide, rows * tall, 1.4);
    svg.setAttribute("role", "img");
    svg.setAttribute("aria-label", "The table repeated");
    for (var row = 0; row < rows; row += 1) {
      for (var column = 0; column < columns; column += 1) {
        svg.appendChild(use(table[row % data.rows][column % data.columns], column * wide, row * tall));
      }
    }
    whole.replaceChildren(svg);
    var sizes = table[0].map(function (_, column) {
      return Math.max.apply(null, table.map(function (one) { return looks[one[column]].length; }));
    });
    var lines = table.map(function (one) {
      var said = one.map(function (look, column) { return looks[look].padEnd(sizes[column]); }).join(" | ").trimEnd();
      return "    " + (one.length === 1 ? "| " : "") + said;
    });
    text.textContent = ["lay " + data.columns * 2 + " by " + data.rows * 2].concat(lines).join("\n");
  }

  table.forEach(function (one, row) {
    one.forEach(function (_, column) {
      var button = document.createElement("button");
      button.type = "button";
      function draw() {
        var svg = sheet(wide, tall, 72 / Math.max(wide, tall));
        svg.setAttribute("aria-hidden", "true");
        svg.appendChild(use(table[row][column], 0, 0));
        button.replaceChildren(svg);
        button.setAttribute("aria-label", name(row, column));
      }
      button.addEventListener("click", function () {
        table[row][column] = (table[row][column] + 1) % looks.length;
        draw();
        show();
      });
      draw();
      cells.appendChild(button);
    });
  });
  show();
}());
