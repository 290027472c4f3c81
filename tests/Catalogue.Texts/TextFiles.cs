using System.Xml.Linq;

namespace Catalogue.Texts;

/// <summary>The resource files of a language: in each folder of a room that says something, one <c>Texts.resx</c> (English) or <c>Texts.de.resx</c>.</summary>
public sealed class TextFiles
{
    private readonly string _root;
    private readonly string _name;
    private readonly SortedDictionary<string, SortedDictionary<string, string>> _byFolder = new(StringComparer.Ordinal);

    private TextFiles(string root, string name) => (_root, _name) = (root, name);

    /// <summary>All texts of a language under the folder that holds <c>src</c>.</summary>
    public static TextFiles Read(string root, string language)
    {
        var files = new TextFiles(root, language == "en" ? "Texts.resx" : $"Texts.{language}.resx");
        foreach (var path in Directory.EnumerateFiles(Path.Combine(root, "src"), files._name, SearchOption.AllDirectories))
        {
            var folder = Path.GetRelativePath(root, Path.GetDirectoryName(path)!).Replace('\\', '/');
            foreach (var entry in XDocument.Load(path, LoadOptions.PreserveWhitespace).Root!.Elements("data")) files.Put(folder, entry.Attribute("name")!.Value, entry.Element("value")!.Value);
        }

        return files;
    }

    public IEnumerable<(string Folder, string Key, string Words)> All => _byFolder.SelectMany(f => f.Value.Select(t => (f.Key, t.Key, t.Value)));

    public string? Find(string key) => _byFolder.Values.Select(t => t.GetValueOrDefault(key)).FirstOrDefault(w => w is not null);

    public string? FolderOf(string key) => _byFolder.FirstOrDefault(f => f.Value.ContainsKey(key)).Key;

    public void Put(string folder, string key, string words)
    {
        if (!_byFolder.TryGetValue(folder, out var texts)) _byFolder[folder] = texts = new(StringComparer.Ordinal);
        texts[key] = words;
    }

    public void Remove(string key)
    {
        foreach (var texts in _byFolder.Values) texts.Remove(key);
    }

    /// <summary>A text that several folders say lies in the first of them only; what scripts say in theirs, which browsers are given.</summary>
    public void KeepOneOfEach(IEnumerable<string> saidByScripts)
    {
        foreach (var key in saidByScripts)
            if (Find(key) is { } words) Put(TextsInCode.ScriptsFolder, key, words);
        var seen = new HashSet<string>(StringComparer.Ordinal);
        foreach (var (_, texts) in _byFolder.OrderByDescending(f => f.Key == TextsInCode.ScriptsFolder))
            foreach (var key in texts.Keys.Where(k => !seen.Add(k)).ToList()) texts.Remove(key);
    }

    /// <summary>Writes every file, its texts in order, so that two people who add some do not meet in the same lines.</summary>
    public void Write()
    {
        foreach (var (folder, texts) in _byFolder)
        {
            var path = Path.Combine(_root, folder, _name);
            if (texts.Count == 0)
            {
                File.Delete(path);
                continue;
            }

            XElement Header(string name, string value) => new("resheader", new XAttribute("name", name), new XElement("value", value));
            var root = new XElement("root",
                Header("resmimetype", "text/microsoft-resx"),
                Header("version", "2.0"),
                Header("reader", "System.Resources.ResXResourceReader, System.Windows.Forms"),
                Header("writer", "System.Resources.ResXResourceWriter, System.Windows.Forms"),
                texts.Select(t => new XElement("data", new XAttribute("name", t.Key), new XAttribute(XNamespace.Xml + "space", "preserve"), new XElement("value", t.Value))));
            File.WriteAllText(path, new XDocument(root) + "\n");
        }
    }
}
