package naming_test

import (
	"fmt"
	"strings"
	"testing"

	"chablon/labels/naming"
)

func ExampleFind() {
	list := []string{"milk chocolate", "milk", "wheat flour"}
	for _, h := range naming.Find("en", "Milk chocolate biscuits", list) {
		fmt.Println(h.Word, "names", list[h.Of])
	}
	// Output:
	// milk chocolate names milk chocolate
}

// What a name names, as a reader of the language takes it. Common practice and
// memory: the law gives no list.
func TestFind(t *testing.T) {
	for _, c := range []struct{ lang, food, list, want string }{
		{"en", "Plum tartlet", "plum, wheat flour, butter", "plum"},
		{"en", "Cherry cake", "cherries, sugar", "cherries"},
		{"en", "Pear and hazelnut tartlet", "pear, butter, hazelnuts, rum", "pear, hazelnuts"},
		{"en", "Passion fruit caramel bar", "dark chocolate, passion fruit purée, passion fruit, cream", "passion fruit purée, passion fruit"},
		{"en", "Rye shortbread with apricot and citrus peel", "rye flour, butter, dried apricots, candied citrus peel, lemon zest", "rye flour, dried apricots, candied citrus peel"},
		{"en", "Milk chocolate biscuit", "milk, milk chocolate", "milk chocolate"},
		{"en", "Chocolate and milk slice", "milk, milk chocolate", "milk, milk chocolate"},
		{"en", "Chocolate cake", "dark chocolate, milk chocolate, cocoa powder", "dark chocolate, milk chocolate"},
		{"en", "Milk loaf", "wheat flour, milk chocolate", ""},
		{"en", "White peach tart", "peaches, egg white", "peaches"},
		{"en", "Egg tart", "egg white, egg yolk", "egg white, egg yolk"},
		{"en", "Peanut cookies", "peas, peanuts", "peanuts"},
		{"en", "Pear tart", "peas", ""},
		{"en", "Salted caramel", "salt, sugar", ""},
		{"en", "Ham and mushroom pizza", "ham, mushrooms, wheat flour", "ham, mushrooms"},
		{"en", "Butternut soup", "butter", ""},
		{"fr", "Tartelette aux prunes", "prune, beurre", "prune"},
		{"fr", "Tartelette aux poires et aux noisettes", "poire, beurre, noisettes", "poire, noisettes"},
		{"fr", "Barre au caramel aux fruits de la passion", "chocolat noir, purée de fruit de la passion, fruit de la passion", "purée de fruit de la passion, fruit de la passion"},
		{"fr", "Sablés au seigle, à l’abricot et aux écorces d’agrumes", "farine de seigle, abricots secs, écorces d’agrumes confites, écorces d’orange, de citron", "farine de seigle, abricots secs, écorces d’agrumes confites"},
		{"fr", "Chou à la pistache", "pâte de pistache, pistaches, œuf", "pâte de pistache, pistaches"},
		{"fr", "Gâteau au chocolat", "chocolat au lait", "chocolat au lait"},
		{"fr", "Gâteau au lait", "chocolat au lait", ""},
		{"de", "Pflaumentörtchen", "Pflaumen, Butter", "Pflaumen"},
		{"de", "Birnen-Haselnuss-Törtchen", "Birne, Haselnüsse, Butter", "Birne, Haselnüsse"},
		{"de", "Roggen-Mürbegebäck mit Aprikosen und Zitrusschalen", "Roggenmehl, getrocknete Aprikosen, kandierte Zitrusschalen, Zitronenschale", "Roggenmehl, getrocknete Aprikosen, kandierte Zitrusschalen"},
		{"de", "Riegel mit Passionsfruchtkaramell", "Passionsfruchtpüree, Passionsfrucht, Zucker", "Passionsfruchtpüree, Passionsfrucht"},
		{"de", "Apfelkuchen", "Äpfel, Mehl", "Äpfel"},
		{"de", "Buttermilchkuchen", "Butter, Buttermilch", "Buttermilch"},
		{"de", "Schokoladen-Haselnuss-Kekse", "Haselnüsse, Zartbitterschokolade", "Haselnüsse, Zartbitterschokolade"},
		{"de", "Eiskonfekt", "Ei", ""},
		{"it", "Torta di pere", "pera, burro", "pera"},
		{"es", "Tarta de almendras", "almendra molida, azúcar", "almendra molida"},
		{"sv", "Hallonpaj", "hallon, smör", "hallon"},
		{"pl", "Ciasto ze śliwkami", "śliwki, mąka", "śliwki"},
		{"xx", "Plum", "Plum, ", "Plum"},
	} {
		list := strings.Split(c.list, ", ")
		var got []string
		for _, h := range naming.Find(c.lang, c.food, list) {
			got = append(got, list[h.Of])
		}
		if strings.Join(got, ", ") != c.want {
			t.Errorf("%s %q of %s: %q, want %q", c.lang, c.food, c.list, strings.Join(got, ", "), c.want)
		}
	}
}
