using System.Globalization;
using System.Text;
using System.Xml;

namespace Harkbook.Publishing.Drawings;

/// <summary>How an SVG holds its text.</summary>
public enum SvgText
{
    /// <summary>As text, pinned to the measured width so that a fallback font cannot overlap its neighbours.</summary>
    Live,

    /// <summary>As outlines: the same everywhere, with no font needed; the words stay as labels.</summary>
    Outlines,
}

/// <summary>A drawing as SVG 1.1.</summary>
public sealed class SvgWriter
{
    private const string Svg = "http://www.w3.org/2000/svg";
    private const string XLink = "http://www.w3.org/1999/xlink";
    private const float GlyphEm = 1000;

    private readonly XmlWriter xml;
    private readonly Func<Tint, string> colour;
    private readonly SvgText text;

    private SvgWriter(XmlWriter xml, Func<Tint, string> colour, SvgText text) => (this.xml, this.colour, this.text) = (xml, colour, text);

    public static string Write(Drawing drawing, Palette palette, SvgText text = SvgText.Live)
    {
        var output = new StringBuilder();
        using (var xml = XmlWriter.Create(output, new() { Indent = true, NewLineChars = "\n", OmitXmlDeclaration = true }))
            new SvgWriter(xml, tint => palette[tint].ToString(), text).Document(drawing);
        return output.Append('\n').ToString();
    }

    /// <summary>The drawing's marks alone, to stand in an SVG of a page that gives the colours.</summary>
    /// <param name="colour">What the page calls a tint's colour, as in "var(--ink)".</param>
    public static string Marks(Drawing drawing, Func<Tint, string> colour)
    {
        var output = new StringBuilder();
        var settings = new XmlWriterSettings { OmitXmlDeclaration = true, ConformanceLevel = ConformanceLevel.Fragment };
        using (var xml = XmlWriter.Create(output, settings))
        {
            var writer = new SvgWriter(xml, colour, SvgText.Live);
            foreach (var mark in drawing.Marks)
                writer.Write(mark);
        }
        // A page's own SVG says once what namespace its marks are of.
        return output.Replace($" xmlns=\"{Svg}\"", "").ToString();
    }

    private void Document(Drawing drawing)
    {
        xml.WriteStartElement("svg", Svg);
        Attributes(("width", drawing.Width), ("height", drawing.Height));
        xml.WriteAttributeString("viewBox", $"0 0 {Number(drawing.Width)} {Number(drawing.Height)}");
        xml.WriteAttributeString("role", "img");
        if (text == SvgText.Outlines)
            xml.WriteAttributeString("xmlns", "xlink", null, XLink);
        if (drawing.Title.Length > 0)
            xml.WriteElementString("title", Svg, Cleaned(drawing.Title));
        Element("rect", () =>
        {
            Attributes(("width", drawing.Width), ("height", drawing.Height));
            xml.WriteAttributeString("fill", colour(Tint.Paper));
        });
        if (text == SvgText.Outlines)
            Element("defs", () => Glyphs(drawing));
        foreach (var mark in drawing.Marks)
            Write(mark);
        xml.WriteEndElement();
    }

    /// <summary>Each glyph once; its name holds only face and number, so that drawings on one page may share it.</summary>
    private void Glyphs(Drawing drawing)
    {
        var used = drawing.Flattened().Select(m => m.Mark).OfType<TextMark>()
            .SelectMany(t => FontBook.Shape(t.Text, t.Face).Runs).SelectMany(r => r.Glyphs.Select(g => (r.Face, Glyph: g))).Distinct().Order();
        foreach (var face in used.GroupBy(g => g.Face))
        {
            using var font = FontBook.Font(face.Key, GlyphEm);
            foreach (var (_, glyph) in face)
            {
                using var path = font.GetGlyphPath(glyph);
                if (path is { IsEmpty: false })
                    Glyph(GlyphName(face.Key, glyph), path.ToSvgPathData());
            }
        }
    }

    private void Glyph(string name, string data) => Element("path", () =>
    {
        xml.WriteAttributeString("id", name);
        xml.WriteAttributeString("d", data);
    });

    private static string GlyphName(Face face, ushort glyph) => string.Create(CultureInfo.InvariantCulture, $"{face}-{glyph}");

    private void Write(Mark mark)
    {
        switch (mark)
        {
            case LineMark line:
                Shape("line", line.Pen, ("x1", line.From.X), ("y1", line.From.Y), ("x2", line.To.X), ("y2", line.To.Y));
                break;
            case RectMark rect:
                Shape("rect", rect.Pen, ("x", rect.Box.Left), ("y", rect.Box.Top), ("width", rect.Box.Width), ("height", rect.Box.Height), ("rx", rect.Corner));
                break;
            case CircleMark circle:
                Shape("circle", circle.Pen, ("cx", circle.Centre.X), ("cy", circle.Centre.Y), ("r", circle.Radius));
                break;
            case PathMark path:
                Element("path", () =>
                {
                    xml.WriteAttributeString("d", path.Data);
                    Paint(path.Pen);
                });
                break;
            case TextMark { Text.Length: > 0 } words when text == SvgText.Outlines:
                Outline(words);
                break;
            case TextMark { Text.Length: > 0 } words:
                Live(words);
                break;
            case GroupMark group:
                Group(group);
                break;
        }
    }

    private void Group(GroupMark group)
    {
        if (group.Link is { } link)
        {
            xml.WriteStartElement("a", Svg);
            xml.WriteAttributeString("href", link);
        }
        xml.WriteStartElement("g", Svg);
        var scale = group.Scale == 1 ? "" : $" scale({Number(group.Scale)})";
        xml.WriteAttributeString("transform", $"translate({Number(group.At.X)} {Number(group.At.Y)}){scale}");
        if (group.Label is { } label)
            xml.WriteElementString("title", Svg, Cleaned(label));
        foreach (var mark in group.Marks)
            Write(mark);
        xml.WriteEndElement();
        if (group.Link is not null)
            xml.WriteEndElement();
    }

    private void Live(TextMark mark) => Element("text", () =>
    {
        var (family, weight) = FontBook.Known(mark.Face);
        var generic = mark.Face == Face.Digits ? "monospace" : "sans-serif";
        Attributes(("x", mark.At.X), ("y", mark.At.Y), ("font-size", mark.Size), ("font-weight", weight), ("textLength", mark.Width));
        xml.WriteAttributeString("lengthAdjust", "spacingAndGlyphs");
        xml.WriteAttributeString("font-family", $"'{family}', 'Noto Music', {generic}");
        xml.WriteAttributeString("fill", colour(mark.Tint));
        xml.WriteAttributeString("xml", "space", null, "preserve");
        xml.WriteString(Cleaned(mark.Text));
    });

    private void Outline(TextMark mark) => Element("g", () =>
    {
        xml.WriteAttributeString("fill", colour(mark.Tint));
        if ((mark.Says ?? mark.Text) is { Length: > 0 } says)
            xml.WriteAttributeString("aria-label", Cleaned(says));
        foreach (var run in FontBook.Shape(mark.Text, mark.Face).Runs)
        {
            using var font = FontBook.Font(run.Face, GlyphEm);
            for (var i = 0; i < run.Glyphs.Length; i++)
            {
                using var path = font.GetGlyphPath(run.Glyphs[i]);
                if (path is { IsEmpty: false })
                    UseGlyph(mark, run, i);
            }
        }
    });

    private void UseGlyph(TextMark mark, GlyphRun run, int index) => Element("use", () =>
    {
        var (x, y) = (mark.At.X + run.Places[index].X * mark.Size, mark.At.Y + run.Places[index].Y * mark.Size);
        var scale = (mark.Size * run.Size / GlyphEm).ToString("0.#####", CultureInfo.InvariantCulture);
        xml.WriteAttributeString("xlink", "href", XLink, "#" + GlyphName(run.Face, run.Glyphs[index]));
        xml.WriteAttributeString("transform", $"translate({Number(x)} {Number(y)}) scale({scale})");
    });

    private void Shape(string name, Pen pen, params (string Name, double Value)[] places) => Element(name, () =>
    {
        Attributes(places);
        Paint(pen);
    });

    private void Paint(Pen pen)
    {
        xml.WriteAttributeString("fill", pen.Fill is { } fill ? colour(fill) : "none");
        if (pen.Stroke is { } stroke)
        {
            xml.WriteAttributeString("stroke", colour(stroke));
            Attributes(("stroke-width", pen.Width));
            xml.WriteAttributeString("stroke-linejoin", "round");
            if (pen.RoundEnds)
                xml.WriteAttributeString("stroke-linecap", "round");
            if (!pen.Dash.IsDefaultOrEmpty)
                xml.WriteAttributeString("stroke-dasharray", string.Join(' ', pen.Dash.Select(Number)));
        }
        if (pen.Opacity != 1)
            Attributes(("opacity", pen.Opacity));
    }

    private void Element(string name, Action content)
    {
        xml.WriteStartElement(name, Svg);
        content();
        xml.WriteEndElement();
    }

    private void Attributes(params (string Name, double Value)[] values)
    {
        foreach (var (name, value) in values)
            xml.WriteAttributeString(name, Number(value));
    }

    /// <summary>XML holds no control characters or lone surrogates; a title may.</summary>
    private static string Cleaned(string text) =>
        string.Concat(text.EnumerateRunes().Where(r => r.Value is 9 or 10 or 13 or >= 32 and not (0xFFFE or 0xFFFF)).Select(r => r.ToString()));

    private static string Number(double value) => Math.Round(value, 3).ToString("0.###", CultureInfo.InvariantCulture);
}
