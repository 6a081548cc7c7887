package limbqueue.triage.threshold;

/** Ids of the sources that rules name; their citations stand in {@code sources.txt}. */
public final class Source {

    public static final String RUTHERFORD_1997 = "rutherford-1997";
    public static final String FONTAINE_1954 = "fontaine-1954";
    public static final String TASC_2007 = "tasc-2007";
    public static final String AHA_ABI_2012 = "aha-abi-2012";
    public static final String WIFI_2014 = "wifi-2014";
    public static final String GVG_2019 = "gvg-2019";
    public static final String ACC_AHA_2005 = "acc-aha-2005";
    public static final String AHA_ACC_2016 = "aha-acc-2016";
    public static final String ESC_2017 = "esc-2017";
    public static final String ACC_AHA_2024 = "acc-aha-2024";
    public static final String ESVS_ALI_2020 = "esvs-ali-2020";
    public static final String VS_QIF_2019 = "vs-qif-2019";
    public static final String NICE_NG19 = "nice-ng19";
    public static final String IDSA_2012 = "idsa-2012";
    public static final String CKD_EPI_2021 = "ckd-epi-2021";
    public static final String ACR_CONTRAST = "acr-contrast";
    public static final String MEHRAN_2004 = "mehran-2004";
    public static final String WHO_ANAEMIA_2011 = "who-anaemia-2011";
    public static final String SIR_2019 = "sir-2019";
    public static final String SVS_PAA_2022 = "svs-paa-2022";
    public static final String LEE_1999 = "lee-1999";
    public static final String FHIR_R4 = "fhir-r4";
    public static final String COMMON_PRACTICE = "common-practice";

    private Source() {}
}
